#include "compare.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <numeric>

namespace dapple {

namespace {

constexpr double kLeftOut = 0.001;
constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

double over(double value, double base) {
    return base > 0 ? value / base : kNone;
}

// NaN if there are no values.
double mean(std::span<const double> values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

// A lamp's image in a rib of glass is a pixel or two and can be a thousand times brighter than all
// other pixels.
double mean_without_brightest(const References& references) {
    std::vector<double> both;
    for (size_t i = 0; i < references.a.size(); ++i) {
        both.push_back((references.a[i] + references.b[i]) / 2);
    }
    std::sort(both.begin(), both.end());
    both.resize(both.size() - static_cast<size_t>(kLeftOut * static_cast<double>(both.size())));
    return mean(both);
}

}  // namespace

Distance compare(std::span<const double> tested, const References& references) {
    const double mean_reference = (mean(references.a) + mean(references.b)) / 2;
    const double floor = 0.1 * mean_without_brightest(references);
    std::vector<double> squares;
    std::vector<double> relative;
    for (size_t i = 0; i < tested.size(); ++i) {
        const double a = references.a[i];
        const double b = references.b[i];
        const double r = (a + b) / 2;
        squares.push_back((tested[i] - a) * (tested[i] - b));
        if (floor > 0) relative.push_back(squares.back() / (r * r + floor * floor));
    }
    std::sort(relative.begin(), relative.end());
    relative.resize(relative.size() -
                    static_cast<size_t>(kLeftOut * static_cast<double>(relative.size())));
    return {mean(squares), mean(relative), over(mean(tested), mean_reference)};
}

ReferenceQuality judge_references(const References& references) {
    const double mean_a = mean(references.a);
    const double mean_b = mean(references.b);
    ReferenceQuality quality;
    quality.mean = (mean_a + mean_b) / 2;
    quality.mean_difference = over(mean_a - mean_b, quality.mean);
    const auto n = static_cast<double>(references.a.size());
    for (size_t i = 0; i < references.a.size(); ++i) {
        const double difference = references.a[i] - references.b[i];
        quality.mean_square += references.a[i] * references.b[i] / n;
        quality.mse_of_one += difference * difference / (2 * n);
    }
    quality.relative_mse_of_one = over(quality.mse_of_one, quality.mean * quality.mean);
    return quality;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const size_t middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
}

}  // namespace dapple
