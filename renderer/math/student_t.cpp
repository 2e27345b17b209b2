#include "math/student_t.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dapple {

namespace {

constexpr int kMostFreedom = 1000;
constexpr int kHalvings = 52;

// A as a function of θ.
double share_within(double theta, int freedom) {
    const double sine = std::sin(theta);
    const double cosine = std::cos(theta);
    const bool is_odd = freedom % 2 != 0;
    double term = is_odd ? cosine : 1;
    double sum = freedom > 1 ? term : 0;
    for (int k = is_odd ? 3 : 2; k <= freedom - 2; k += 2) {
        term *= cosine * cosine * (k - 1.0) / k;
        sum += term;
    }
    return is_odd ? 2 / std::numbers::pi * (theta + sine * sum) : sine * sum;
}

}  // namespace

double student_t(double share, int freedom) {
    const int counted = std::clamp(freedom, 1, kMostFreedom);
    double low = 0;
    double high = std::numbers::pi / 2;
    for (int i = 0; i < kHalvings; ++i) {
        const double middle = (low + high) / 2;
        (share_within(middle, counted) < share ? low : high) = middle;
    }
    return std::sqrt(static_cast<double>(counted)) * std::tan(low);
}

}  // namespace dapple
