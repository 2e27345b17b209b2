#include "plausible/light/find_exposure_doubts.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "plausible/light/white_stops.h"

namespace dapple {

namespace {

constexpr int kEvery = 6;        // spots, along both sides of the frame
constexpr double kTooDark = -6;  // stops from white, of the brightest hundredth
constexpr double kTooDarkIndirect = -4;
constexpr double kBurntOut = 3.5;  // of the median
constexpr double kPartBurnt = 1;   // of a third of the frame

// Of every sixth spot in both directions, darkest first.
std::vector<double> luminances_of(const SeenFrame& frame, const QuickLight& light) {
    std::vector<const SeenSpot*> spots;
    for (int y = kEvery / 2; y < frame.down; y += kEvery) {
        for (int x = kEvery / 2; x < frame.across; x += kEvery) {
            spots.push_back(&frame.spots[static_cast<size_t>(y * frame.across + x)]);
        }
    }
    std::vector<double> found(spots.size(), 0.0);
    parallel_blocks(static_cast<int64_t>(spots.size()), 8, [&](int64_t first, int64_t last) {
        for (int64_t i = first; i < last; ++i) {
            const SeenSpot& spot = *spots[static_cast<size_t>(i)];
            if (spot.meets) {
                found[static_cast<size_t>(i)] = light.luminance(spot.at, spot.direction);
            }
        }
    });
    std::sort(found.begin(), found.end());
    return found;
}

// Whether a lamp is in the frame, or lights something there directly, also through glass.
bool is_lit_directly(const SeenFrame& frame, const QuickLight& light) {
    constexpr size_t kEverySeventh = 7;
    for (size_t i = 0; i < frame.spots.size(); i += kEverySeventh) {
        const SeenSpot& spot = frame.spots[i];
        if (!spot.meets) continue;
        if (spot.at.lamp >= 0) return true;
        for (const float side : {1.0F, -1.0F}) {
            if (light.direct({spot.at.position, side * spot.at.geometric}) > 0) return true;
        }
    }
    return false;
}

Doubts burnt_out(const StagedSet& set,
                 const std::string& what,
                 const std::string& how_much,
                 double stops) {
    return {doubt_at(exposure_key(set),
                     what + " burnt out " + setting_text(set.scene.camera) + ": " + how_much + " " +
                         stops_text(stops) +
                         " and more above white, by a quick estimate; change shutter_s, iso or "
                         "f_number",
                     true)};
}

}  // namespace

Doubts find_exposure_doubts(const StagedSet& set, const SeenFrame& frame, const QuickLight& light) {
    const std::vector<double> luminances = luminances_of(frame, light);
    const auto quantile = [&](size_t i, size_t n) {
        return stops_from_white(set, luminances[luminances.size() * i / n]);
    };
    const double bright = quantile(99, 100);
    if (quantile(1, 2) > kBurntOut) {
        return burnt_out(set, "the picture looks", "half of it is", quantile(1, 2));
    }
    if (quantile(2, 3) > kPartBurnt) {
        return burnt_out(set, "the picture looks", "a third of it is", quantile(2, 3));
    }
    const bool is_lit = bright > kTooDarkIndirect || is_lit_directly(frame, light);
    if (bright > (is_lit ? kTooDark : kTooDarkIndirect)) return {};
    if (!is_lit) {
        return Doubts{
            doubt_at(set.written.camera.aim,
                     "the camera looks away from the light: nothing in the frame gets any "
                     "directly, and the brightest is " +
                         stops_text(bright) + " below white, by a quick estimate",
                     true)};
    }
    return Doubts{
        doubt_at(exposure_key(set),
                 "the picture looks black " + setting_text(set.scene.camera) +
                     ": its brightest parts are " + stops_text(bright) +
                     " below white, by a quick estimate; change shutter_s, iso or f_number",
                 true)};
}

}  // namespace dapple
