#include "plausible/beams/find_stopped_beams.h"

#include <algorithm>
#include <array>

#include "plausible/beams/board_shade.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/bodies/way_out.h"
#include "plausible/in_words.h"
#include "plausible/room/room_walls.h"

namespace dapple {

namespace {

constexpr float kNearAim = 0.10F;       // m, around what a fixture is aimed at
constexpr float kBehindAim = 0.30F;     // m, up to which things on the axis may be meant
constexpr float kShortOfAim = 0.05F;    // m, that an aim may be behind a surface
constexpr float kShortShare = 0.03F;    // of the distance, likewise
constexpr float kOffLamp = 1e-3F;       // m
constexpr size_t kSightLines = 24;      // to what is aimed at
constexpr float kPartOfFigure = 0.25F;  // m, around the aim: a face, a chest

struct Stop {
    Thing thing;
    SurfacePoint at;
    float distance = 0;
};

// What a beam may be aimed at.
struct BeamTarget {
    Thing thing;
    Bounds bounds;
    const BodyCage* cage = nullptr;
};

// The first surface from one point to another that stops light and is not of the fixture itself.
std::optional<Stop> first_stop(const StagedSet& set,
                               int fixture,
                               const Point& from,
                               const Point& to) {
    const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
        const bool is_own = thing.index == fixture &&
                            (thing.kind == ThingKind::kHousing || thing.kind == ThingKind::kStand ||
                             thing.kind == ThingKind::kLamp);
        return !is_own && blocks_light(set.scene, at);
    };
    const float length = glm::length(to - from);
    const Direction way = (to - from) / length;
    Stop stop;
    const Ray ray{from + kOffLamp * way, way, 0.0F, length - kOffLamp};
    if (!first_counting(set.world, ray, counts, stop.thing, stop.at)) return std::nullopt;
    stop.distance = glm::length(stop.at.position - from);
    return stop;
}

Bounds grown(Bounds bounds, float by) {
    bounds.low -= by;
    bounds.high += by;
    return bounds;
}

bool is_inside(const Point& p, const Bounds& bounds) {
    return glm::all(glm::greaterThanEqual(p, bounds.low)) &&
           glm::all(glm::lessThanEqual(p, bounds.high));
}

// Where the ray enters the bounds; infinite if it does not.
float entry_of(const Bounds& bounds, const Point& from, const Direction& way) {
    float enter = 0;
    float leave = kInfinity;
    for (int a = 0; a < 3; ++a) {
        const float per = 1.0F / (std::abs(way[a]) > 1e-9F ? way[a] : 1e-9F);
        const float t0 = (bounds.low[a] - from[a]) * per;
        const float t1 = (bounds.high[a] - from[a]) * per;
        enter = std::max(enter, std::min(t0, t1));
        leave = std::min(leave, std::max(t0, t1));
    }
    return enter <= leave ? enter : kInfinity;
}

bool is_glass_or_cloth(const Scene& scene, const Thing& thing) {
    return thing.kind == ThingKind::kGlass ||
           (thing.kind == ThingKind::kBoard &&
            scene.boards[static_cast<size_t>(thing.index)].kind == BoardKind::kDiffuser);
}

// The glass or cloth on the axis behind the stop, or the figure that the aim is in.
std::optional<BeamTarget> target_of(const StagedSet& set,
                                    const std::vector<Mover>& movers,
                                    const Fixture& f,
                                    const Stop& stop) {
    const float reach = glm::length(*f.aim - f.position) + kBehindAim;
    for (const Mover& mover : movers) {
        if (mover.thing == stop.thing || mover.cage.empty()) continue;
        const Bounds bounds = bounds_of(mover.cage);
        const BeamTarget target{mover.thing, bounds, &mover.cage};
        if (mover.thing.kind == ThingKind::kFigure && is_inside(*f.aim, grown(bounds, kNearAim))) {
            return target;
        }
        if (!is_glass_or_cloth(set.scene, mover.thing)) continue;
        const float entry = entry_of(bounds, f.position, f.axis);
        if (entry > stop.distance && entry < reach) return target;
    }
    return std::nullopt;
}

// The points of the target that count; of a figure, what is around the aim. But flags shade parts
// of a figure on purpose: they must hide all of it that is in the beam.
std::vector<Point> points_of(const Fixture& f,
                             const Emitter& emitter,
                             const BeamTarget& target,
                             const Thing& by) {
    std::vector<Point> points;
    for (const Chord& chord : *target.cage) {
        const bool counts =
            target.thing.kind != ThingKind::kFigure ||
            (by.kind == ThingKind::kBoard ? outside_field(f, emitter, chord.a) <= 0
                                          : glm::length(chord.a - *f.aim) <= kPartOfFigure);
        if (counts) points.push_back(chord.a);
    }
    return points;
}

// Whether the stop hides all of the points from the lamp.
bool is_hidden(const StagedSet& set,
               int fixture,
               const std::vector<Point>& points,
               const Thing& by) {
    const Fixture& f = set.scene.fixtures[static_cast<size_t>(fixture)];
    const size_t step = std::max<size_t>(1, points.size() / kSightLines);
    for (size_t i = 0; i < points.size(); i += step) {
        const std::optional<Stop> stop = first_stop(set, fixture, f.position, points[i]);
        if (!stop || stop->thing != by) return false;
    }
    return !points.empty();
}

// The surface at the aim, if a region watches it.
const Region* region_at(const StagedSet& set, const Fixture& f) {
    const Point before = *f.aim - 0.15F * f.axis;
    Hit hit;
    const Ray ray{before, f.axis, 0.0F, 0.15F + kBehindAim};
    if (!set.world.closest(ray, hit)) return nullptr;
    const MaterialId met = set.world.surface_at(ray, hit).material;
    for (const Region& region : set.scene.regions) {
        if (region.surface != kNoMaterial && region.surface == met) return &region;
    }
    return nullptr;
}

// Whether the room is between the fixture and a place that it might be moved to.
bool is_behind_wall(const StagedSet& set, int fixture, const Point& place) {
    const Point from = set.scene.fixtures[static_cast<size_t>(fixture)].position;
    const std::optional<Stop> stop = first_stop(set, fixture, from, place);
    return stop && is_of_room(set.scene, stop->thing);
}

// A place of the fixture from which its axis passes what stops it.
std::string passing_place(const StagedSet& set, int fixture, const Stop& stop) {
    const Fixture& f = set.scene.fixtures[static_cast<size_t>(fixture)];
    const Field<Triple>& position = set.written.fixtures[static_cast<size_t>(fixture)].position;
    const std::optional<Bounds> box = box_of_room(set);
    const RoomWalls walls(set);
    for (const float distance : {0.2F, 0.4F, 0.6F, 0.8F, 1.0F, 1.5F, 2.0F}) {
        for (const Direction& way : ways_out(set.scene.camera, false)) {
            const Point from = f.position + distance * way;
            if (box && !is_inside(from, grown(*box, -0.2F))) continue;
            if (!walls.may_move(f.position, from) || is_behind_wall(set, fixture, from)) continue;
            const std::optional<Stop> next = first_stop(set, fixture, from, *f.aim);
            const bool passes = !next || next->distance > glm::length(*f.aim - from) - kNearAim;
            if (!passes || (next && next->thing == stop.thing)) continue;
            return "; it passes from " + length_text(distance) + " " +
                   way_text(way, set.scene.camera) + ": " + moved_text(position, distance * way);
        }
    }
    return "; move one of them";
}

// A flag or a board before the target: where it would be out of the way.
Doubt board_doubt(const StagedSet& set,
                  const Emitter& emitter,
                  int fixture,
                  const BeamTarget& target,
                  const std::vector<Point>& points,
                  const Stop& stop) {
    const int board = stop.thing.index;
    const std::vector<LightWay> ways =
        ways_past_board(set, emitter, fixture, points, board, target.thing);
    const std::string name = words_of(set, target.thing);
    return doubt_at(*written_position(set, stop.thing),
                    "stops the beam of \"" + set.scene.fixtures[static_cast<size_t>(fixture)].name +
                        "\" " + length_text(stop.distance) + " from the lamp, before " + name +
                        "; " + freeing_move_text(set, board, ways, name));
}

std::optional<Doubt> stopped_beam(const StagedSet& set,
                                  const std::vector<Mover>& movers,
                                  const Emitter& emitter,
                                  int fixture) {
    const auto index = static_cast<size_t>(fixture);
    const Fixture& f = set.scene.fixtures[index];
    const float to_aim = glm::length(*f.aim - f.position);
    const std::optional<Stop> stop =
        first_stop(set, fixture, f.position, *f.aim + kBehindAim * f.axis);
    if (!stop || stop->distance > to_aim - std::max(kShortOfAim, kShortShare * to_aim)) {
        return std::nullopt;
    }
    const auto doubt = [&](const std::string& before) {
        return doubt_at(set.written.fixtures[index].aim,
                        words_of(set, stop->thing, stop->at.material) + " stops the beam " +
                            length_text(stop->distance) + " from the lamp, before " + before +
                            passing_place(set, fixture, *stop));
    };
    const std::optional<BeamTarget> target = target_of(set, movers, f, *stop);
    if (target) {
        const std::vector<Point> points = points_of(f, emitter, *target, stop->thing);
        if (!is_hidden(set, fixture, points, stop->thing)) return std::nullopt;
        if (is_movable_stop(set.scene, stop->thing)) {
            return board_doubt(set, emitter, fixture, *target, points, *stop);
        }
        return doubt(words_of(set, target->thing));
    }
    // A figure or a flag before a wall throws a shadow on purpose; a column stands there.
    const Region* region = stop->thing.kind == ThingKind::kColumn ? region_at(set, f) : nullptr;
    if (region == nullptr) return std::nullopt;
    return doubt("the region \"" + region->name + "\", which it is aimed at");
}

// An aim that is in or near what stops the beam is meant for that.
bool is_meant_for_stop(const StagedSet& set, int fixture) {
    const Fixture& f = set.scene.fixtures[static_cast<size_t>(fixture)];
    const std::optional<Stop> stop = first_stop(set, fixture, f.position, *f.aim);
    if (!stop || is_of_room(set.scene, stop->thing)) return false;
    Bounds bounds;
    for (const Point& p : set.world.corners_of(stop->thing)) bounds.add(p);
    return is_inside(*f.aim, grown(bounds, kNearAim));
}

}  // namespace

Doubts find_stopped_beams(const StagedSet& set,
                          const std::vector<Mover>& movers,
                          const QuickLight& light) {
    Doubts doubts;
    for (size_t i = 0; i < set.written.fixtures.size(); ++i) {
        const Fixture& f = set.scene.fixtures[i];
        const auto fixture = static_cast<int>(i);
        if (f.form == FixtureForm::kBare || !f.aim || is_meant_for_stop(set, fixture)) continue;
        if (auto doubt = stopped_beam(set, movers, light.emitters()[i], fixture))
            doubts.push_back(std::move(*doubt));
    }
    return doubts;
}

}  // namespace dapple
