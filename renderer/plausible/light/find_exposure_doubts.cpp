#include "plausible/light/find_exposure_doubts.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "math/sequences.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/bodies/crossings.h"
#include "plausible/light/white_stops.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"
#include "scene/day_sheet.h"

namespace dapple {

namespace {

constexpr int kEvery = 6;        // spots, along both sides of the frame
constexpr double kTooDark = -6;  // stops from white, of the brightest hundredth
constexpr double kTooDarkIndirect = -4;
constexpr double kBurntOut = 3.5;       // of the median
constexpr double kPartBurnt = 1;        // of a third of the frame
constexpr double kFaceBurnt = 0.7;      // of half of a face
constexpr float kRadiusOfFace = 0.05F;  // of the height, around the eyes
constexpr uint32_t kRaysToAFace = 32;

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

// The key to change: the shutter if it is written, else the ISO.
const Field<double>& exposure_key(const StagedSet& set) {
    const CameraDescription& camera = set.written.camera;
    return camera.shutter_s.given ? camera.shutter_s : camera.iso;
}

std::string setting_text(const Camera& camera) {
    return "at f/" + number_text(std::round(10.0 * camera.f_number) / 10) + ", " +
           shutter_words(camera) + ", ISO " + number_text(camera.iso);
}

bool is_opaque(const Scene& scene, const SurfacePoint& at) {
    if (at.material == kNoMaterial) return true;
    const Material& m = scene.materials[static_cast<size_t>(at.material)];
    return m.kind != MaterialKind::kGlass && m.kind != MaterialKind::kThinGlass && m.opacity == 1;
}

// What the lens sees of a face, cd/m².
std::vector<double> luminances_of_face(const StagedSet& set,
                                       const StandIn& figure,
                                       const QuickLight& light) {
    const Camera& camera = set.scene.camera;
    const Counts counts = [&](const Thing&, const SurfacePoint& at) {
        return is_opaque(set.scene, at);
    };
    std::vector<double> found;
    for (uint32_t i = 0; i < kRaysToAFace; ++i) {
        const auto u = sobol_owen_4d(i, 13);
        const float radius = kRadiusOfFace * figure.height * std::sqrt(u[0]);
        const Vec2 off = radius * Vec2(std::cos(2 * kPiF * u[1]), std::sin(2 * kPiF * u[1]));
        const Direction way = glm::normalize(figure_face(figure) + off.x * camera.frame.s +
                                             off.y * camera.frame.t - camera.position);
        Thing thing;
        SurfacePoint at;
        const Ray ray{camera.position, way, 0, kInfinity};
        if (!first_counting(set.world, ray, counts, thing, at)) continue;
        if (at.material == figure.skin) found.push_back(light.luminance(at, way));
    }
    return found;
}

// Whether glass stands between a lamp and the face. It may bend the light away, which the estimate
// leaves out.
bool is_lit_through_glass(const StagedSet& set, const Point& face) {
    const Counts counts = [](const Thing& thing, const SurfacePoint&) {
        return thing.kind == ThingKind::kGlass;
    };
    const auto& fixtures = set.scene.fixtures;
    return std::any_of(fixtures.begin(), fixtures.end(), [&](const Fixture& f) {
        if (f.is_window || !(f.dimmer > 0)) return false;
        const Vec3 way = face - f.position;
        const float length = glm::length(way);
        Thing thing;
        SurfacePoint at;
        const Ray ray{f.position, way / std::max(length, 1e-3F), 0, length};
        return first_counting(set.world, ray, counts, thing, at);
    });
}

// The median over a face that is in the frame, stops from white, of the brightest figure. Nothing
// where the lens sees less than half of each face, or glass is before a lamp.
std::optional<double> face_from_white(const StagedSet& set, const QuickLight& light) {
    std::optional<double> brightest;
    for (const StandIn& figure : set.scene.stand_ins) {
        const Point face = figure_face(figure);
        if (!is_in_frame(set.lens, face) || is_lit_through_glass(set, face)) continue;
        std::vector<double> found = luminances_of_face(set, figure, light);
        if (found.size() < kRaysToAFace / 2) continue;
        std::sort(found.begin(), found.end());
        const double stops = stops_from_white(set, found[found.size() / 2]);
        brightest = std::max(brightest.value_or(stops), stops);
    }
    return brightest;
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

Doubts find_burnt_face(const StagedSet& set, const QuickLight& light) {
    const std::optional<double> face = face_from_white(set, light);
    if (!face || *face <= kFaceBurnt) return {};
    return burnt_out(set, "the face looks", "half of it is", *face);
}

}  // namespace dapple
