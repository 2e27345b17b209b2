#include "plausible/beams/sight_lines.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr float kOffEnds = 2e-3F;      // m
constexpr float kBesideField = 0.05F;  // rad, outside the field that still counts as inside

}  // namespace

bool blocks_light(const Scene& scene, const SurfacePoint& at) {
    if (at.lamp >= 0 || at.material == kNoMaterial) return false;
    const Material& m = scene.materials[static_cast<size_t>(at.material)];
    return m.kind != MaterialKind::kGlass && m.kind != MaterialKind::kThinGlass &&
           m.kind != MaterialKind::kSheet && !is_see_through(m);
}

std::optional<Thing> stop_between(const StagedSet& set,
                                  const Point& from,
                                  const Point& to,
                                  int skipped) {
    const float length = glm::length(to - from);
    if (length < 2 * kOffEnds) return std::nullopt;
    const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
        const bool is_own = thing.index == skipped &&
                            (thing.kind == ThingKind::kLamp || thing.kind == ThingKind::kStand);
        return !is_own && blocks_light(set.scene, at);
    };
    const Direction way = (to - from) / length;
    Thing thing;
    SurfacePoint at;
    const Ray ray{from + kOffEnds * way, way, 0.0F, length - 2 * kOffEnds};
    if (!first_counting(set.world, ray, counts, thing, at)) return std::nullopt;
    return thing;
}

float outside_field(const Fixture& f, const Emitter& emitter, const Point& p) {
    if (f.form != FixtureForm::kSpot || f.photometry) return emitter.may_reach(p) ? 0 : kInfinity;
    const Vec3 to = p - f.position;
    const float along = glm::dot(to, f.axis);
    const float across = glm::length(to - along * f.axis);
    const float half_field =
        0.5F * (f.wide_beam_angle > 0 ? f.wide_field_angle : f.field_angle) + kBesideField;
    if (std::atan2(across, along) <= half_field) return 0;
    if (along <= 0) return glm::length(to);
    const float reach = std::tan(std::min(half_field, 1.5F));
    return std::max(0.0F, across - f.source_diameter / 2 - along * reach);
}

bool is_in_frame(const Lens& lens, const Point& p) {
    Lens::Projection seen;
    return lens.project(p, 0.5F, 0.5F, seen);
}

bool lens_sees(const StagedSet& set, const Point& p) {
    return is_in_frame(set.lens, p) && !stop_between(set, set.lens.position(), p);
}

}  // namespace dapple
