#include "plausible/bodies/movers.h"

#include "base/parallel.h"
#include "geometry/lay_figure/make_stand_in.h"
#include "scene/checks.h"

namespace dapple {

namespace {

bool is_liquid(const Material& m) {
    return m.kind == MaterialKind::kGlass &&
           (m.glass == GlassType::kWater || m.glass == GlassType::kOil);
}

bool is_soft(const Material& m) {
    return m.kind == MaterialKind::kSheet || is_see_through(m);
}

// In front of a fixture's housing are only its barn doors and its snoot.
bool is_attachment(const Fixture& f, const Point& p) {
    return glm::dot(p - f.position, f.axis) > 0;
}

// The rod of a stand is below its fixture; its feet reach farther out.
bool is_foot(const Fixture& f, const Point& p) {
    constexpr float kRod = 0.06F;  // m
    const Point top = f.position - 0.5F * f.housing_length * f.axis;
    return glm::length(Vec2(p.x - top.x, p.z - top.z)) > std::max(kRod, f.housing_diameter);
}

// What no body must be clear of.
bool is_left_out(const StagedSet& set,
                 const Thing& mover,
                 const Thing& thing,
                 const SurfacePoint& at) {
    const Scene& scene = set.scene;
    const auto index = static_cast<size_t>(thing.index);
    if (thing == mover || thing.kind == ThingKind::kLamp) return true;
    if (is_of_room(scene, thing) && set.written.room.size_m.given) return true;  // walls of a box
    if (thing.kind == ThingKind::kStand && is_foot(scene.fixtures[index], at.position)) return true;
    if (at.material == kNoMaterial) return false;
    const Material& material = scene.materials[static_cast<size_t>(at.material)];
    if (is_liquid(material)) return true;
    const bool may_be_soft = thing.kind == ThingKind::kRoom || thing.kind == ThingKind::kFigure;
    return may_be_soft && is_soft(material);
}

// A pane, or a model that is as flat as one.
bool is_flat(const GlassObject& glass, const Bounds& bounds) {
    if (glass.form == GlassForm::kPane) return true;
    const Vec3 size = bounds.high - bounds.low;
    const float thin = std::min({size.x, size.y, size.z});
    return glass.form == GlassForm::kMesh && thin < 0.1F * std::max({size.x, size.y, size.z});
}

Counts counts_for_glass(const StagedSet& set, const Thing& mover, bool flat) {
    const auto has_priority = [&set](const Thing& t) {
        return set.written.glasses[static_cast<size_t>(t.index)].priority.given;
    };
    return [&set, mover, flat, has_priority](const Thing& thing, const SurfacePoint& at) {
        if (is_left_out(set, mover, thing, at)) return false;
        if (thing.kind == ThingKind::kRoom) return !flat;
        return thing.kind != ThingKind::kGlass || (!has_priority(mover) && !has_priority(thing));
    };
}

Counts counts_for_board(const StagedSet& set, const Thing& mover) {
    return [&set, mover](const Thing& thing, const SurfacePoint& at) {
        if (is_left_out(set, mover, thing, at)) return false;
        if (thing.kind == ThingKind::kHousing) {
            return !is_attachment(set.scene.fixtures[static_cast<size_t>(thing.index)],
                                  at.position);
        }
        return thing.kind == ThingKind::kColumn || thing.kind == ThingKind::kFigure;
    };
}

Counts counts_for_fixture(const StagedSet& set, const Thing& mover) {
    return [&set, mover](const Thing& thing, const SurfacePoint& at) {
        if (is_left_out(set, mover, thing, at)) return false;
        return thing.kind == ThingKind::kColumn || thing.kind == ThingKind::kFigure ||
               thing.kind == ThingKind::kRoom;
    };
}

Counts counts_for_figure(const StagedSet& set, const Thing& mover) {
    return [&set, mover](const Thing& thing, const SurfacePoint& at) {
        if (is_left_out(set, mover, thing, at)) return false;
        if (thing.kind == ThingKind::kColumn) {
            const Column& column = set.scene.columns[static_cast<size_t>(thing.index)];
            const StandIn& figure = set.scene.stand_ins[static_cast<size_t>(mover.index)];
            constexpr float kHighestTable = 1.15F;  // m
            return figure.pose != Pose::kSeated || column.height > kHighestTable;
        }
        return thing.kind == ThingKind::kFigure || thing.kind == ThingKind::kRoom;
    };
}

std::vector<Point> housing_corners(const StagedSet& set, int index) {
    const Fixture& f = set.scene.fixtures[static_cast<size_t>(index)];
    const std::vector<Point> all = set.world.corners_of({ThingKind::kHousing, index});
    std::vector<Point> kept;
    for (size_t i = 0; i + 2 < all.size(); i += 3) {
        if (is_attachment(f, all[i]) || is_attachment(f, all[i + 1])) continue;
        kept.insert(kept.end(), {all[i], all[i + 1], all[i + 2]});
    }
    return kept;
}

// Without its cape.
std::vector<Point> body_corners(StandIn figure) {
    figure.dress = kNoMaterial;
    std::vector<Point> corners;
    for (const Mesh& mesh : make_stand_in(figure)) {
        for (const glm::uvec3& t : mesh.triangles) {
            for (int c = 0; c < 3; ++c) corners.push_back(mesh.positions[t[c]]);
        }
    }
    return corners;
}

Mover make_mover(const StagedSet& set, const Thing& thing) {
    const auto index = static_cast<size_t>(thing.index);
    switch (thing.kind) {
        case ThingKind::kGlass: {
            BodyCage cage = make_cage(set.world.corners_of(thing));
            const bool flat = is_flat(set.scene.glasses[index], bounds_of(cage));
            return {thing, std::move(cage), counts_for_glass(set, thing, flat)};
        }
        case ThingKind::kBoard:
            return {
                thing, make_cage(set.world.corners_of(thing)), counts_for_board(set, thing), true};
        case ThingKind::kHousing:
            return {thing,
                    make_cage(housing_corners(set, thing.index)),
                    counts_for_fixture(set, thing),
                    true};
        default:
            return {thing,
                    make_cage(body_corners(set.scene.stand_ins[index])),
                    counts_for_figure(set, thing)};
    }
}

}  // namespace

std::vector<Mover> find_movers(const StagedSet& set) {
    const Scene& scene = set.scene;
    std::vector<Thing> things;
    const auto add = [&](ThingKind kind, size_t i) {
        things.push_back({kind, static_cast<int>(i)});
    };
    for (size_t i = 0; i < scene.glasses.size(); ++i) add(ThingKind::kGlass, i);
    for (size_t i = 0; i < scene.boards.size(); ++i) {
        const Board& board = scene.boards[i];
        if (board.kind != BoardKind::kDoor && board.clipped_to.empty()) add(ThingKind::kBoard, i);
    }
    for (size_t i = 0; i < scene.fixtures.size(); ++i) {
        const Fixture& f = scene.fixtures[i];
        if (!f.is_window && f.housing_diameter > 0) add(ThingKind::kHousing, i);
    }
    for (size_t i = 0; i < scene.stand_ins.size(); ++i) add(ThingKind::kFigure, i);
    std::vector<Mover> movers(things.size());
    parallel_blocks(static_cast<int64_t>(things.size()), 1, [&](int64_t i, int64_t) {
        movers[static_cast<size_t>(i)] = make_mover(set, things[static_cast<size_t>(i)]);
    });
    return movers;
}

float touching_of(const StagedSet& set, const Thing& mover, const Thing& other) {
    switch (mover.kind) {
        case ThingKind::kGlass: {
            // Models of glass and of their room overlap by some millimetres where they meet.
            const bool is_model =
                set.scene.glasses[static_cast<size_t>(mover.index)].form == GlassForm::kMesh;
            if (other.kind == ThingKind::kGlass) return 0.015F;
            return is_model || other.kind == ThingKind::kHousing ? 0.01F : 0.005F;
        }
        case ThingKind::kHousing:  // our kit's housings have typical sizes, no maker's
            return other.kind == ThingKind::kFigure ? 0.01F : 0.02F;
        case ThingKind::kFigure: {
            const bool is_seated =
                set.scene.stand_ins[static_cast<size_t>(mover.index)].pose == Pose::kSeated;
            if (other.kind == ThingKind::kFigure) return 0.12F;  // a couple stands close
            return is_seated ? 0.12F : 0.025F;
        }
        default:
            return 0.02F;
    }
}

float sinking_of(const StagedSet& set, const Thing& mover) {
    if (mover.kind != ThingKind::kFigure) return 0;
    const StandIn& figure = set.scene.stand_ins[static_cast<size_t>(mover.index)];
    return figure.pose == Pose::kSeated ? 0.12F : 0.05F;
}

}  // namespace dapple
