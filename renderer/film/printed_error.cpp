#include "film/printed_error.h"

#include "math/student_t.h"

namespace dapple {

namespace {

constexpr double kWithinOneSigma = 0.6827;  // of a Gaussian
constexpr double kWithinTwoSigma = 0.9545;

}  // namespace

std::optional<double> printed_error(const std::optional<double>& standard_error, int passes) {
    if (!standard_error || passes == 0) return standard_error;
    if (passes < kPassesToKnowSpread) return std::nullopt;
    return *standard_error * student_t(kWithinOneSigma, passes - 1);
}

double errors_to_tell_apart(int passes) {
    return passes == 0 ? 2 : student_t(kWithinTwoSigma, passes - 1);
}

}  // namespace dapple
