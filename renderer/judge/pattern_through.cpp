#include "judge/pattern_through.h"

#include <algorithm>

#include "judge/log_remainder.h"

namespace dapple {

namespace {

double pixels_inside(const RegionImage& region) {
    return static_cast<double>(std::count(region.inside.begin(), region.inside.end(), 1));
}

}  // namespace

Pattern measure_pattern_through(const RegionImage& region, const RegionImage& lit) {
    Pattern pattern = measure_pattern(lit);
    if (!region.noise_known) return pattern;
    if (!is_lit(lit) || pattern.texture_stops.why == kTooFewPixels) {
        const Measure none = Measure::unknown("too little light through the thing");
        return {Measure::known(0, 0), none, none, Measure::known(0, 0), 0};
    }
    const double share = pixels_inside(lit) / pixels_inside(region);
    pattern.texture_stops = scaled(pattern.texture_stops, share);
    pattern.cover = scaled(pattern.cover, share);
    return pattern;
}

}  // namespace dapple
