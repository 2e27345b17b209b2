// Statistics of luminance, cd/m², over pixels.
//
//   quantile p of n sorted values: linear between them at p (n - 1)   (type 7 of Hyndman, Fan 1996)
//   stops of a pixel: log2(L / L_white)                                                 (E159)
//   clipped: L ≥ L_white. The display curve still separates tones there, and so does a sensor with
//     the headroom of ISO 12232, up to half a stop over white.
//   saturated: L more than half a stop over white, where such a sensor is full.
//   deep shadow: L < L_white / 64, six stops under white and 3.5 under an 18 % card: where tone
//     without texture begins (common practice, no source).
// Noise raises the highest value and lowers the lowest. It changes the percentiles less.
#pragma once

#include <optional>
#include <vector>

namespace dapple {

struct LuminanceStatistics {
    double min = 0, max = 0, mean = 0;  // cd/m²
    std::optional<double> mean_stderr;  // from the spread over passes; nothing: not known
    double median = 0, p01 = 0, p05 = 0, p95 = 0, p99 = 0;
};

// Shares of the pixels in bins of a third of a stop, from 12 stops under white to 6 over. The
// first bin also counts all darker pixels, the last all brighter ones.
struct StopsStatistics {
    static constexpr int kBins = 54;
    static constexpr double kFirstStop = -12.0;
    static constexpr double kBinStops = 1.0 / 3.0;

    std::vector<double> histogram = std::vector<double>(kBins, 0.0);
    double clipped_share = 0;
    double saturated_share = 0;
    double deep_shadow_share = 0;
};

bool is_clipped(double luminance, double white_luminance);
bool is_deep_shadow(double luminance, double white_luminance);

// Leaves `mean_stderr` empty, because one picture has no spread over passes.
LuminanceStatistics make_luminance_statistics(const std::vector<double>& luminance);

StopsStatistics make_stops_statistics(const std::vector<double>& luminance, double white_luminance);

// Quantile of sorted values, 0 ≤ p ≤ 1; 0 if there are no values.
double quantile(const std::vector<double>& sorted, double p);

}  // namespace dapple
