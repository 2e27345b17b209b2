#include "plausible/room/find_hanging_vessels.h"

#include <algorithm>
#include <cmath>

#include "math/sequences.h"
#include "math/warps.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/in_words.h"

namespace dapple {

namespace {

constexpr float kOnSomething = 0.03F;   // m, above what it stands on
constexpr float kHeldBeside = 0.10F;    // m, to what holds it, such as a clamp on a lamp
constexpr float kNearSoftLamp = 1.5F;   // m
constexpr float kBeyondAim = 0.5F;      // m, that glass may be behind what a lamp is aimed at
constexpr double kInBeam = 0.5;         // of the peak
constexpr size_t kPointsOfVessel = 64;  // that are looked at
constexpr uint32_t kRaysAround = 64;    // that look for what holds it
constexpr float kHighestTable = 1.3F;   // m, of a column that is offered
constexpr float kAboveGround = 0.05F;   // m, less is a vessel on uneven ground
constexpr float kAboveTable = 0.02F;    // m

bool is_vessel(GlassForm form) {
    return form == GlassForm::kJar || form == GlassForm::kBottle || form == GlassForm::kTumbler ||
           form == GlassForm::kDemijohn || form == GlassForm::kCarafe;
}

std::vector<Point> points_of_vessel(const BodyCage& cage) {
    std::vector<Point> points;
    const size_t step = std::max<size_t>(1, cage.size() / kPointsOfVessel);
    for (size_t i = 0; i < cage.size(); i += step) points.push_back(cage[i].a);
    return points;
}

// Whether the vessel is where the fixture's light is meant to go.
bool is_in_beam(const StagedSet& set,
                const Emitter& emitter,
                int fixture,
                const std::vector<Point>& points) {
    const Fixture& f = set.scene.fixtures[static_cast<size_t>(fixture)];
    if (!(emitter.lumens() > 0)) return false;
    const bool is_soft = f.form != FixtureForm::kSpot && !f.photometry;
    return std::any_of(points.begin(), points.end(), [&](const Point& p) {
        const Vec3 to = p - f.position;
        const float distance = glm::length(to);
        if (is_soft && distance > kNearSoftLamp) return false;
        if (f.aim && distance > glm::length(*f.aim - f.position) + kBeyondAim) return false;
        const double share = static_cast<double>(emitter.candela(to / distance)) /
                             std::max(emitter.peak_candela(), 1e-9);
        return share >= kInBeam && !stop_between(set, f.position, p, fixture);
    });
}

// The first thing below the middle, from just above the lowest point.
struct Below {
    Thing thing;
    MaterialId material = kNoMaterial;
    float gap = 0;  // m
};

std::optional<Below> find_below(const StagedSet& set, const Thing& own, const Point& foot) {
    const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
        return thing != own && at.lamp < 0 && thing.kind != ThingKind::kStand;
    };
    Below below;
    SurfacePoint at;
    const Ray down{foot + Vec3(0, kOnSomething, 0), Vec3(0, -1, 0), 0.0F, kInfinity};
    if (!first_counting(set.world, down, counts, below.thing, at)) return std::nullopt;
    below.material = at.material;
    below.gap = foot.y - at.position.y;
    return below;
}

// Whether something is so near beside it or above it that it may be fixed to that.
bool is_held_beside(const StagedSet& set, const Thing& own, const Bounds& bounds) {
    const Counts counts = [&](const Thing& thing, const SurfacePoint&) {
        return thing != own && thing.kind != ThingKind::kFigure;
    };
    const Vec3 half = 0.5F * (bounds.high - bounds.low);
    for (uint32_t i = 0; i < kRaysAround; ++i) {
        const auto u = sobol_owen_4d(i, 23);
        const Direction way = sample_sphere(u[0], u[1]);
        // From the box around the vessel outwards.
        const Vec3 slow = half / glm::max(glm::abs(way), Vec3(1e-6F));
        const float leave = std::min({slow.x, slow.y, slow.z});
        Thing thing;
        SurfacePoint at;
        const float beyond = way.y < -0.5F ? 0 : kHeldBeside;
        const Ray ray{bounds.centre(), way, 0.0F, leave + beyond};
        if (first_counting(set.world, ray, counts, thing, at)) return true;
    }
    return false;
}

// "; on it: position = …", of a table below it, or "; on the column "table": position = …", of the
// nearest low column.
std::string table_text(const StagedSet& set,
                       const Field<Triple>& position,
                       const Point& foot,
                       const Below& below) {
    if (below.thing.kind == ThingKind::kColumn) {
        return "; on it: " + moved_text(position, Vec3(0, -below.gap, 0));
    }
    const Column* nearest = nullptr;
    const auto distance = [&](const Column& c) {
        return glm::length(Vec2(c.position.x - foot.x, c.position.z - foot.z));
    };
    for (const Column& c : set.scene.columns) {
        if (c.height > kHighestTable) continue;
        if (nearest == nullptr || distance(c) < distance(*nearest)) nearest = &c;
    }
    if (nearest == nullptr) return "; put a [[column]] under it, as a table";
    const Point top = nearest->position + Vec3(0, nearest->height, 0);
    return "; on the column \"" + nearest->name + "\": " + moved_text(position, top - foot);
}

std::optional<Doubt> hanging_doubt(const StagedSet& set,
                                   const Mover& mover,
                                   const QuickLight& light,
                                   bool over_tables) {
    const std::vector<Point> points = points_of_vessel(mover.cage);
    const Field<Triple>* position = written_position(set, mover.thing);
    const Bounds bounds = bounds_of(mover.cage);
    const Point foot(bounds.centre().x, bounds.low.y, bounds.centre().z);
    if (points.empty() || position == nullptr || is_held_beside(set, mover.thing, bounds)) {
        return std::nullopt;
    }
    const std::optional<Below> below = find_below(set, mover.thing, foot);
    const bool is_over_table = below && below->thing.kind == ThingKind::kColumn;
    if (over_tables && !is_over_table) return std::nullopt;
    if (!below || below->gap < (is_over_table ? kAboveTable : kAboveGround)) return std::nullopt;
    const bool is_seen = std::any_of(
        points.begin(), points.end(), [&](const Point& p) { return lens_sees(set, p); });
    if (!is_seen) return std::nullopt;
    for (size_t i = 0; i < light.emitters().size(); ++i) {
        if (is_in_beam(set, light.emitters()[i], static_cast<int>(i), points)) return std::nullopt;
    }
    return doubt_at(*position,
                    "hangs in the air, " + length_text(below->gap) + " above " +
                        words_of(set, below->thing, below->material) +
                        ", and is in no lamp's beam" + table_text(set, *position, foot, *below),
                    true);
}

}  // namespace

Doubts find_hanging_vessels(const StagedSet& set,
                            const std::vector<Mover>& movers,
                            const QuickLight& light,
                            bool over_tables) {
    Doubts doubts;
    for (const Mover& mover : movers) {
        if (mover.thing.kind != ThingKind::kGlass) continue;
        const auto index = static_cast<size_t>(mover.thing.index);
        if (!is_vessel(set.scene.glasses[index].form)) continue;
        if (auto doubt = hanging_doubt(set, mover, light, over_tables))
            doubts.push_back(std::move(*doubt));
    }
    return doubts;
}

}  // namespace dapple
