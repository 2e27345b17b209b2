#include "plausible/light/white_stops.h"

#include <algorithm>
#include <cmath>

#include "render/prepare/setup.h"
#include "scene/checks.h"

namespace dapple {

double stops_from_white(const StagedSet& set, double luminance) {
    return std::log2(std::max(luminance, 1e-12) / white_of(set.scene.camera));
}

std::string stops_text(double stops) {
    if (std::abs(stops) > 20) return "more than 20 stops";
    const double rounded = std::round(std::abs(stops));
    return "about " + number_text(rounded) + (rounded == 1 ? " stop" : " stops");
}

}  // namespace dapple
