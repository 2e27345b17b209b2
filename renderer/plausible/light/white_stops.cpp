#include "plausible/light/white_stops.h"

#include <algorithm>
#include <cmath>

#include "render/prepare/setup.h"
#include "scene/checks.h"
#include "scene/day_sheet.h"

namespace dapple {

double stops_from_white(const StagedSet& set, double luminance) {
    return std::log2(std::max(luminance, 1e-12) / white_of(set.scene.camera));
}

std::string stops_text(double stops) {
    if (std::abs(stops) > 20) return "more than 20 stops";
    const double rounded = std::round(std::abs(stops));
    return "about " + number_text(rounded) + (rounded == 1 ? " stop" : " stops");
}

const Field<double>& exposure_key(const StagedSet& set) {
    const CameraDescription& camera = set.written.camera;
    return camera.shutter_s.given ? camera.shutter_s : camera.iso;
}

std::string setting_text(const Camera& camera) {
    return "at f/" + number_text(std::round(10.0 * camera.f_number) / 10) + ", " +
           shutter_words(camera) + ", ISO " + number_text(camera.iso);
}

}  // namespace dapple
