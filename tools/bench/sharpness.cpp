#include "sharpness.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr double kHighPass = 4;  // px

// One pass of a separable Gaussian along rows (step 1) or columns (step width).
std::vector<double> blurred_along(const std::vector<double>& values,
                                  int lines,
                                  int length,
                                  int line_step,
                                  int step,
                                  double sigma) {
    std::vector<double> out(values.size());
    const int reach = static_cast<int>(std::ceil(4 * sigma));
    for (int line = 0; line < lines; ++line) {
        for (int i = 0; i < length; ++i) {
            double sum = 0;
            double weights = 0;
            for (int k = std::max(0, i - reach); k <= std::min(length - 1, i + reach); ++k) {
                const double w = std::exp(-0.5 * (k - i) * (k - i) / (sigma * sigma));
                sum += w * values[static_cast<size_t>(line * line_step + k * step)];
                weights += w;
            }
            out[static_cast<size_t>(line * line_step + i * step)] = sum / weights;
        }
    }
    return out;
}

std::vector<double> high_passed(const Patch& patch, const std::vector<double>& values) {
    std::vector<double> out = blurred(patch, values, kHighPass);
    for (size_t i = 0; i < out.size(); ++i) out[i] = values[i] - out[i];
    return out;
}

double product(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
    return sum;
}

double misfit(const std::vector<double>& t,
              const std::vector<double>& a,
              const std::vector<double>& b) {
    double sum = 0;
    for (size_t i = 0; i < t.size(); ++i) sum += (t[i] - a[i]) * (t[i] - b[i]);
    return sum;
}

}  // namespace

std::vector<double> blurred(const Patch& patch,
                            const std::vector<double>& values,
                            double sigma_px) {
    if (!(sigma_px > 0)) return values;
    const auto rows = blurred_along(values, patch.height, patch.width, patch.width, 1, sigma_px);
    return blurred_along(rows, patch.width, patch.height, 1, patch.width, sigma_px);
}

Sharpness judge_sharpness(const Patch& patch,
                          const std::vector<double>& tested,
                          const References& references) {
    const auto t = high_passed(patch, tested);
    const auto a = high_passed(patch, references.a);
    const auto b = high_passed(patch, references.b);
    Sharpness result;
    result.contrast = (product(t, a) + product(t, b)) / (2 * product(a, b));
    double least = misfit(tested, references.a, references.b);
    for (double sigma = 0.1; sigma < 4; sigma += 0.1) {
        const double m = misfit(tested,
                                blurred(patch, references.a, sigma),
                                blurred(patch, references.b, sigma));
        if (m >= least) continue;
        least = m;
        result.blur_px = sigma;
    }
    return result;
}

}  // namespace dapple
