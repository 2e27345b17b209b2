#include "plausible/camera/find_focus_doubts.h"

#include <algorithm>
#include <cmath>

#include "plausible/beams/sight_lines.h"
#include "plausible/in_words.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kSharp = 1.0 / 1500;  // largest blur over the sensor's diagonal, common practice
constexpr double kMuchBlur = 3;        // times that: what is told
constexpr float kHalfHead = 0.060F;    // of the height, from its middle to the eyes

double depth_of(const Camera& camera, const SeenSpot& spot) {
    return static_cast<double>(glm::dot(spot.at.position - camera.position, camera.frame.n));
}

// Diameter of the blur of a point at `depth`, over the sensor's diagonal (E80).
double blur_at(const Camera& camera, double depth) {
    const double f = camera.focal_length;
    const double s = camera.focus_distance;
    const double blur = f * f / (camera.f_number * (s - f)) * std::abs(s - depth) / depth;
    return blur / static_cast<double>(glm::length(camera.sensor));
}

// Where the focus is written, as a distance or as a name.
Doubt focus_doubt(const StagedSet& set, const std::string& message, bool is_guess) {
    const CameraDescription& camera = set.written.camera;
    if (camera.focus_thing.written) return doubt_at(camera.focus_thing, message, is_guess);
    return doubt_at(camera.focus_m, message, is_guess);
}

void add_beyond_everything(const StagedSet& set, const SeenFrame& frame, Doubts& doubts) {
    const Camera& camera = set.scene.camera;
    double farthest = 0;
    double figure = kInfinity;
    for (const SeenSpot& spot : frame.spots) {
        if (!spot.meets) return;  // there is no end
        farthest = std::max(farthest, depth_of(camera, spot));
        if (spot.thing.kind == ThingKind::kFigure) {
            figure = std::min(figure, depth_of(camera, spot));
        }
    }
    if (camera.focus_distance < 1.05 * farthest + 0.1) return;
    // The depth of field may reach that far.
    if (blur_at(camera, std::min(figure, farthest)) < kSharp) return;
    std::string message = "is " + number_text(static_cast<double>(camera.focus_distance)) +
                          ", beyond everything: the farthest surface in the frame is " +
                          length_text(farthest) + " away";
    if (std::isfinite(figure)) message += ", and the figure " + length_text(figure);
    doubts.push_back(focus_doubt(set, message, false));
}

bool is_sharp_at(const SharpRange& range, double depth) {
    return depth >= range.nearest && depth <= range.farthest;
}

// Whether glass or a surface that a region watches is in focus.
bool is_sharp_elsewhere(const StagedSet& set, const SeenFrame& frame, const SharpRange& range) {
    const Camera& camera = set.scene.camera;
    for (const SeenSpot& spot : frame.spots) {
        if (!spot.meets) continue;
        const double along = static_cast<double>(glm::dot(spot.direction, camera.frame.n));
        const double first = static_cast<double>(spot.first_distance) * along;
        if (spot.first.kind == ThingKind::kGlass && is_sharp_at(range, first)) return true;
        const bool is_watched = std::any_of(
            set.scene.regions.begin(), set.scene.regions.end(), [&](const Region& region) {
                return region.surface != kNoMaterial && region.surface == spot.at.material;
            });
        if (is_watched && is_sharp_at(range, depth_of(camera, spot))) return true;
    }
    return false;
}

std::string range_words(const SharpRange& range) {
    const std::string from = "sharp from " + length_text(range.nearest);
    return std::isfinite(range.farthest) ? from + " to " + length_text(range.farthest)
                                         : from + " on";
}

void add_soft_face(const StagedSet& set, const SeenFrame& frame, Doubts& doubts) {
    const Camera& camera = set.scene.camera;
    const StandIn* soft = nullptr;
    double nearest = kInfinity;
    for (int index = 0; index < static_cast<int>(set.scene.stand_ins.size()); ++index) {
        const StandIn& figure = set.scene.stand_ins[static_cast<size_t>(index)];
        const Point face = figure_face(figure);
        const float depth = glm::dot(face - camera.position, camera.frame.n);
        if (!is_in_frame(set.lens, face)) continue;
        const std::optional<Thing> stop = stop_between(set, camera.position, face);
        if (!stop || *stop != Thing{ThingKind::kFigure, index}) continue;
        const auto skin_depth = static_cast<double>(depth - kHalfHead * figure.height);
        if (blur_at(camera, skin_depth) < kMuchBlur * kSharp) return;
        if (skin_depth >= nearest) continue;
        nearest = skin_depth;
        soft = &figure;
    }
    const SharpRange range = sharp_range(camera);
    if (soft == nullptr || is_sharp_elsewhere(set, frame, range)) return;
    doubts.push_back(focus_doubt(set,
                                 "is " + number_text(static_cast<double>(camera.focus_distance)) +
                                     ", and the face of \"" + soft->name + "\" is " +
                                     length_text(nearest) + " away: at f/" +
                                     number_text(static_cast<double>(camera.f_number)) + " it is " +
                                     range_words(range) + "; focus_m = \"" + soft->name + " face\"",
                                 true));
}

}  // namespace

SharpRange sharp_range(const Camera& camera) {
    const double f = camera.focal_length;
    const double s = camera.focus_distance;
    // Of a point at infinity, over the sensor's diagonal (E81).
    const double blur =
        f * f / (camera.f_number * (s - f)) / static_cast<double>(glm::length(camera.sensor));
    return {s * blur / (blur + kSharp), blur > kSharp ? s * blur / (blur - kSharp) : kInfinity};
}

Doubts find_focus_doubts(const StagedSet& set, const SeenFrame& frame) {
    Doubts doubts;
    if (set.scene.camera.focus_distance <= 0) return doubts;
    add_beyond_everything(set, frame, doubts);
    if (doubts.empty()) add_soft_face(set, frame, doubts);
    return doubts;
}

}  // namespace dapple
