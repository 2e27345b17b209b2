#include "plausible/camera/find_hidden_faces.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "math/sequences.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/bodies/crossings.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr uint32_t kRaysToFace = 32;
constexpr double kHiddenShare = 0.5;  // of the rays to a face
constexpr double kScreen = 0.6;       // of the frame
constexpr float kLookedAt = 0.05F;    // of the figure's height, around the eyes
constexpr float kBeforeFace = 0.12F;  // m, that ends a ray before the head and its hair
constexpr float kStyle = 0.5F;        // m, from the lens
constexpr float kAxisLength = 10;     // m

bool is_named_by_region(const Scene& scene, MaterialId material) {
    return std::any_of(scene.regions.begin(), scene.regions.end(), [&](const Region& region) {
        return region.surface != kNoMaterial && region.surface == material;
    });
}

double share_of_frame(const SeenFrame& frame, const Thing& thing) {
    const auto seen =
        std::count_if(frame.spots.begin(), frame.spots.end(), [&](const SeenSpot& spot) {
            return spot.meets && spot.first == thing;
        });
    return static_cast<double>(seen) * frame.share_of_spot();
}

// Whether the axis of a lamp goes through it.
bool is_in_a_beam(const StagedSet& set, const Thing& pane) {
    const auto& fixtures = set.scene.fixtures;
    return std::any_of(fixtures.begin(), fixtures.end(), [&](const Fixture& f) {
        if (f.is_window || !(f.dimmer > 0) || f.form == FixtureForm::kBare) return false;
        const Counts counts = [&](const Thing& thing, const SurfacePoint&) {
            return thing == pane;
        };
        Thing met;
        SurfacePoint at;
        return first_counting(set.world, {f.position, f.axis, 0, kAxisLength}, counts, met, at);
    });
}

// Whether it may hide a face by mistake, at this distance from the lens.
bool may_hide(const StagedSet& set, const Thing& thing, const SurfacePoint& at) {
    const Scene& scene = set.scene;
    const auto index = static_cast<size_t>(thing.index);
    if (is_named_by_region(scene, at.material)) return false;
    if (thing.kind == ThingKind::kBoard) return scene.boards[index].kind != BoardKind::kDoor;
    return thing.kind == ThingKind::kGlass && scene.glasses[index].form == GlassForm::kPane &&
           glm::length(at.position - scene.camera.position) > kStyle;
}

// How many of the rays to the face each thing stops; of several, the first.
std::map<Thing, int> things_before(const StagedSet& set, const StandIn& figure) {
    const Camera& camera = set.scene.camera;
    const Point face = figure_face(figure);
    const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
        return may_hide(set, thing, at);
    };
    std::map<Thing, int> stopped;
    for (uint32_t i = 0; i < kRaysToFace; ++i) {
        const auto u = sobol_owen_4d(i, 7);
        const float radius = kLookedAt * figure.height * std::sqrt(u[0]);
        const Vec2 off = radius * Vec2(std::cos(2 * kPiF * u[1]), std::sin(2 * kPiF * u[1]));
        const Vec3 way = face + off.x * camera.frame.s + off.y * camera.frame.t - camera.position;
        const float length = glm::length(way);
        if (length <= kBeforeFace) continue;
        Thing thing;
        SurfacePoint at;
        const Ray ray{camera.position, way / length, 0, length - kBeforeFace};
        if (first_counting(set.world, ray, counts, thing, at)) ++stopped[thing];
    }
    return stopped;
}

bool is_on_purpose(const StagedSet& set, const SeenFrame& frame, const Thing& thing) {
    if (thing.kind == ThingKind::kGlass) return !is_in_a_beam(set, thing);
    return share_of_frame(frame, thing) > kScreen;
}

Doubt hidden(const StagedSet& set, const Thing& thing, const StandIn& figure, double share) {
    const bool is_pane = thing.kind == ThingKind::kGlass;
    std::string message = "stands between the lens and the face of \"" + figure.name + "\"";
    if (!is_pane) {
        message += " and hides " + number_text(std::round(100 * share)) + " % of it";
    }
    message += "; move it aside, or watch it with a [[region]] if it is meant to be there";
    const Field<Triple>* position = written_position(set, thing);
    const BoardDescription* board = is_pane ? nullptr : written_board(set, thing.index);
    if (board != nullptr && board->clip_to.given) return doubt_at(board->clip_to, message, true);
    return doubt_at(*position, message, true);
}

}  // namespace

Doubts find_hidden_faces(const StagedSet& set, const SeenFrame& frame) {
    Doubts doubts;
    for (const StandIn& figure : set.scene.stand_ins) {
        if (!is_in_frame(set.lens, figure_face(figure))) continue;
        for (const auto& [thing, rays] : things_before(set, figure)) {
            const double share = static_cast<double>(rays) / kRaysToFace;
            if (share < kHiddenShare || is_on_purpose(set, frame, thing)) continue;
            doubts.push_back(hidden(set, thing, figure, share));
        }
    }
    return doubts;
}

}  // namespace dapple
