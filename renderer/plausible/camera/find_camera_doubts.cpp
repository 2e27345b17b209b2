#include "plausible/camera/find_camera_doubts.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "plausible/camera/find_focus_doubts.h"
#include "plausible/in_words.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr float kTooNear = 0.5F;      // m, of a wall that fills the frame
constexpr double kWholeFrame = 0.97;  // share of it
constexpr double kLongShutter = 30;   // s; nobody stands still for as long
constexpr double kWidest = 0.15;      // focal length over the sensor's diagonal

void add_focal_length(const StagedSet& set, Doubts& doubts) {
    const Camera& camera = set.scene.camera;
    const Field<double>& focal = set.written.camera.focal_length_mm;
    const double diagonal = static_cast<double>(glm::length(camera.sensor));
    if (!focal.given || camera.focal_length > kWidest * diagonal) return;
    const double view = 2 * std::atan(0.5 * diagonal / camera.focal_length) * 180 / kPi;
    const double as_metres = 1e3 * focal.value;
    std::string message = "is " + number_text(focal.value) + " mm: a view of " +
                          number_text(std::round(view)) + "° across, wider than lenses have";
    if (as_metres >= 8 && as_metres <= 1000) message += "; " + number_text(as_metres) + "?";
    doubts.push_back(doubt_at(focal, message, true));
}

// Nothing but one near surface, or nothing at all.
void add_empty_view(const StagedSet& set, const SeenFrame& frame, Doubts& doubts) {
    std::map<std::pair<Thing, MaterialId>, int> seen;
    float farthest = 0;
    for (const SeenSpot& spot : frame.spots) {
        if (!spot.meets) continue;
        ++seen[{spot.first, spot.first_material}];
        farthest = std::max(farthest, spot.first_distance);
    }
    const Field<Triple>& aim = set.written.camera.aim;
    if (seen.empty()) {
        doubts.push_back(doubt_at(aim, "the lens sees nothing: no surface is in the frame"));
        return;
    }
    const auto most = std::max_element(
        seen.begin(), seen.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    const auto& [thing, material] = most->first;
    const bool is_subject = thing.kind == ThingKind::kGlass || thing.kind == ThingKind::kFigure;
    const double share = most->second * frame.share_of_spot();
    if (is_subject || share < kWholeFrame || farthest > kTooNear) return;
    doubts.push_back(doubt_at(aim,
                              "the camera looks at " + words_of(set, thing, material) + " from " +
                                  length_text(frame.spots[frame.spots.size() / 2].first_distance) +
                                  ", and it fills the frame; turn the camera or move it back"));
}

// No figure is in the frame, and all are behind the camera.
void add_turned_away(const StagedSet& set, const SeenFrame& frame, Doubts& doubts) {
    const Scene& scene = set.scene;
    if (scene.stand_ins.empty()) return;
    for (const StandIn& figure : scene.stand_ins) {
        const Vec3 to = figure.position + Vec3(0, 0.5F * figure.height, 0) - scene.camera.position;
        if (glm::dot(to, scene.camera.frame.n) > 0) return;
    }
    for (const SeenSpot& spot : frame.spots) {
        if (spot.thing.kind == ThingKind::kFigure) return;
        if (!spot.meets || spot.at.material == kNoMaterial) continue;
        const Material& m = scene.materials[static_cast<size_t>(spot.at.material)];
        if (m.kind == MaterialKind::kConductor) return;  // it may be seen in a mirror
    }
    const StandIn& figure = scene.stand_ins.front();
    const Point chest = figure.position + Vec3(0, 0.75F * figure.height, 0);
    doubts.push_back(doubt_at(set.written.camera.aim,
                              "the camera looks away from the figure \"" + figure.name +
                                  "\", which is behind it; aim = " +
                                  triple_text({chest.x, chest.y, chest.z}) + " is its chest",
                              true));
}

}  // namespace

Doubts find_view_doubts(const StagedSet& set, const SeenFrame& frame) {
    Doubts doubts;
    add_focal_length(set, doubts);
    if (doubts.empty()) add_empty_view(set, frame, doubts);
    if (doubts.empty()) add_turned_away(set, frame, doubts);
    if (!doubts.empty()) return doubts;
    return find_focus_doubts(set, frame);
}

Doubts find_shutter_doubts(const StagedSet& set) {
    const Field<double>& shutter = set.written.camera.shutter_s;
    if (!shutter.given || shutter.value < kLongShutter) return {};
    return {doubt_at(shutter,
                     "is " + number_text(shutter.value) + " seconds; 1/" +
                         number_text(shutter.value) + " s is " +
                         number_text(std::round(1e6 / shutter.value) / 1e6),
                     true)};
}

}  // namespace dapple
