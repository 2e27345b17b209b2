#include "judge/luminance_statistics.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr double kDeepShadowStops = -6.0;
constexpr double kSaturationStops = 0.5;

int bin_of(double stops) {
    using S = StopsStatistics;
    const double bin = std::floor((stops - S::kFirstStop) / S::kBinStops);
    return static_cast<int>(std::clamp(bin, 0.0, S::kBins - 1.0));  // -infinity goes to bin 0
}

}  // namespace

bool is_clipped(double luminance, double white_luminance) {
    return luminance >= white_luminance;
}

bool is_deep_shadow(double luminance, double white_luminance) {
    return luminance < std::exp2(kDeepShadowStops) * white_luminance;
}

double quantile(const std::vector<double>& sorted, double p) {
    if (sorted.empty()) return 0;
    const double at = p * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<size_t>(at);
    const size_t above = std::min(below + 1, sorted.size() - 1);
    return std::lerp(sorted[below], sorted[above], at - static_cast<double>(below));
}

LuminanceStatistics make_luminance_statistics(const std::vector<double>& luminance) {
    LuminanceStatistics result;
    if (luminance.empty()) return result;
    std::vector<double> sorted = luminance;
    std::sort(sorted.begin(), sorted.end());
    result.min = sorted.front();
    result.max = sorted.back();
    double sum = 0;
    for (const double y : luminance) sum += y;
    result.mean = sum / static_cast<double>(luminance.size());
    result.median = quantile(sorted, 0.5);
    result.p01 = quantile(sorted, 0.01);
    result.p05 = quantile(sorted, 0.05);
    result.p95 = quantile(sorted, 0.95);
    result.p99 = quantile(sorted, 0.99);
    return result;
}

StopsStatistics make_stops_statistics(const std::vector<double>& luminance,
                                      double white_luminance) {
    StopsStatistics result;
    if (luminance.empty()) return result;
    const double share = 1.0 / static_cast<double>(luminance.size());
    int64_t clipped = 0;
    int64_t saturated = 0;
    int64_t shadow = 0;
    std::vector<int64_t> counts(StopsStatistics::kBins, 0);
    for (const double y : luminance) {
        const double stops = std::log2(std::max(0.0, y / white_luminance));
        ++counts[static_cast<size_t>(bin_of(stops))];
        if (is_clipped(y, white_luminance)) ++clipped;
        if (stops >= kSaturationStops) ++saturated;
        if (is_deep_shadow(y, white_luminance)) ++shadow;
    }
    for (size_t i = 0; i < counts.size(); ++i) {
        result.histogram[i] = share * static_cast<double>(counts[i]);
    }
    result.clipped_share = share * static_cast<double>(clipped);
    result.saturated_share = share * static_cast<double>(saturated);
    result.deep_shadow_share = share * static_cast<double>(shadow);
    return result;
}

}  // namespace dapple
