#include "plausible/room/find_unheld.h"

#include <cmath>
#include <map>

#include "math/sequences.h"
#include "math/warps.h"
#include "plausible/bodies/crossings.h"
#include "plausible/in_words.h"

namespace dapple {

namespace {

constexpr float kFloats = 0.05F;     // m, above the floor
constexpr float kStepUp = 0.3F;      // m, from which the floor is looked for
constexpr float kHeld = 0.35F;       // m, within which something holds a fixture
constexpr double kNoticed = 2.5e-3;  // share of the frame

// The height of what is below the point; nothing where there is nothing.
std::optional<float> support_below(const StagedSet& set, const Point& p, const Thing& own) {
    const Counts counts = [&](const Thing& thing, const SurfacePoint&) {
        return thing != own && thing.kind != ThingKind::kStand && thing.kind != ThingKind::kLamp;
    };
    Thing thing;
    SurfacePoint at;
    const Ray down{p + Vec3(0, kStepUp, 0), Vec3(0, -1, 0), 0.0F, kInfinity};
    if (!first_counting(set.world, down, counts, thing, at)) return std::nullopt;
    return at.position.y;
}

bool is_held(const StagedSet& set, int fixture) {
    const Fixture& f = set.scene.fixtures[static_cast<size_t>(fixture)];
    const Point middle = f.position - 0.5F * f.housing_length * f.axis;
    const Counts counts = [&](const Thing& thing, const SurfacePoint&) {
        return thing.kind == ThingKind::kColumn || thing.kind == ThingKind::kBoard ||
               is_of_room(set.scene, thing);
    };
    for (uint32_t i = 0; i < 64; ++i) {
        const auto u = sobol_owen_4d(i, 3);
        const Ray ray{middle, sample_sphere(u[0], u[1]), 0.0F, kHeld + 0.5F * f.housing_length};
        Thing thing;
        SurfacePoint at;
        if (first_counting(set.world, ray, counts, thing, at)) return true;
    }
    return false;
}

}  // namespace

Doubts find_floating_figures(const StagedSet& set) {
    Doubts doubts;
    for (size_t i = 0; i < set.scene.stand_ins.size(); ++i) {
        const StandIn& figure = set.scene.stand_ins[i];
        if (figure.pose == Pose::kSeated) continue;  // its feet may hang
        const Thing own{ThingKind::kFigure, static_cast<int>(i)};
        // Each foot is 0.05 of the height to the side.
        const Vec3 side =
            0.05F * figure.height * Vec3(std::cos(figure.turn), 0, -std::sin(figure.turn));
        float gap = kInfinity;
        for (const float way : {-1.0F, 0.0F, 1.0F}) {
            const auto floor = support_below(set, figure.position + way * side, own);
            if (floor) gap = std::min(gap, figure.position.y - *floor);
        }
        if (!std::isfinite(gap) || gap < kFloats) continue;
        const Field<Triple>& position = set.written.stand_ins[i].position;
        doubts.push_back(doubt_at(
            position,
            "the figure floats " + length_text(gap) +
                " above what is below it; on it: " + moved_text(position, Vec3(0, -gap, 0)),
            true));
    }
    return doubts;
}

Doubts find_unheld_fixtures(const StagedSet& set, const SeenFrame& frame) {
    std::map<int, double> shares;
    for (const SeenSpot& spot : frame.spots) {
        const bool is_fixture =
            spot.first.kind == ThingKind::kHousing || spot.first.kind == ThingKind::kLamp;
        if (spot.meets && is_fixture) shares[spot.first.index] += frame.share_of_spot();
    }
    Doubts doubts;
    for (const auto& [fixture, share] : shares) {
        const Fixture& f = set.scene.fixtures[static_cast<size_t>(fixture)];
        if (f.is_window || f.stand || f.form == FixtureForm::kBare || share < kNoticed) continue;
        if (is_held(set, fixture)) continue;
        doubts.push_back(doubt_at(set.written.fixtures[static_cast<size_t>(fixture)].stand,
                                  "the fixture is in the frame and hangs in the air; stand = true "
                                  "stands it on the floor, or move it out of the frame",
                                  true));
    }
    return doubts;
}

}  // namespace dapple
