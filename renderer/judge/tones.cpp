#include "judge/tones.h"

#include "judge/luminance_statistics.h"
#include "judge/share.h"

namespace dapple {

namespace {

constexpr int kLargestBlock = 8;  // px
constexpr double kTonesNoise = 0.2;
constexpr int kTonesPartPx = 16;

}  // namespace

Tones measure_tones(const RegionImage& region, double white_luminance) {
    if (!region.noise_known)
        return {Measure::unknown(kNotKnownYet), Measure::unknown(kNotKnownYet)};
    int b = 1;
    RegionImage blocks = region;
    while (b < kLargestBlock && relative_noise(blocks) > kTonesNoise) {
        b *= 2;
        blocks = make_blocks(region, b);
    }
    const int part = kTonesPartPx / b;
    return {
        measure_share(blocks, part, [&](double l) { return is_deep_shadow(l, white_luminance); }),
        measure_share(blocks, part, [&](double l) { return is_clipped(l, white_luminance); })};
}

}  // namespace dapple
