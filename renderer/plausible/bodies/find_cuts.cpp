#include "plausible/bodies/find_cuts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "plausible/bodies/way_out.h"
#include "plausible/in_words.h"
#include "plausible/room/room_walls.h"

namespace dapple {

namespace {

// One body that a mover cuts into.
struct Cut {
    Thing thing;
    Crossed crossed;
    bool is_around = false;     // the mover is wholly in it
    std::optional<WayOut> out;  // of this body alone
};

std::vector<Cut> bodies_met(const StagedSet& set, const Mover& mover) {
    std::vector<Cut> cuts;
    for (const auto& [thing, crossed] : things_crossed(set.world, mover.cage, mover.counts)) {
        cuts.push_back({thing, crossed, false, {}});
    }
    if (!cuts.empty() || mover.cage.empty()) return cuts;
    SurfacePoint inner;
    inner.position = mover.cage.front().a;
    for (const Thing& thing : things_around(set.world, inner.position)) {
        if (mover.counts(thing, inner)) cuts.push_back({thing, {}, true, {}});
    }
    return cuts;
}

WayOutSearch search_from(const StagedSet& set, const Mover& mover, const Counts& counts) {
    return {set.world,
            mover.cage,
            counts,
            box_of_room(set),
            ways_out(set.scene.camera, mover.also_down),
            {}};
}

// Whether the mover only rests on the body, or is pressed against it.
bool only_touches(const StagedSet& set, const Mover& mover, Cut& cut) {
    const Counts of_it = [&](const Thing& thing, const SurfacePoint& at) {
        return thing == cut.thing && mover.counts(thing, at);
    };
    const float sinking = sinking_of(set, mover.thing);
    if (sinking > 0 && !crosses(set.world, mover.cage, Vec3(0, sinking, 0), of_it)) return true;
    const float touching = touching_of(set, mover.thing, cut.thing);
    WayOutSearch search = search_from(set, mover, of_it);
    search.room.reset();
    cut.out = find_way_out(search, touching);
    return cut.out && cut.out->distance <= touching;
}

// Where the camera, the other fixtures and the meters are: on the inner side of the walls.
std::vector<Point> other_places(const StagedSet& set, const Thing& mover) {
    std::vector<Point> places{set.scene.camera.position};
    for (size_t i = 0; i < set.scene.fixtures.size(); ++i) {
        const Fixture& f = set.scene.fixtures[i];
        const bool is_mover =
            mover.kind == ThingKind::kHousing && mover.index == static_cast<int>(i);
        if (!f.is_window && !is_mover) places.push_back(f.position + 0.01F * f.axis);
    }
    for (const Meter& meter : set.scene.meters) places.push_back(meter.position);
    return places;
}

// Where the mover would be clear, and by how much it has to move.
struct Advice {
    std::string text = "; move one of them";
    std::optional<float> up;  // m, to what it then stands on
};

Advice find_advice(const StagedSet& set, const Mover& mover, const std::vector<Cut>& touched) {
    const Counts others = [&](const Thing& thing, const SurfacePoint& at) {
        const bool is_touched = std::any_of(
            touched.begin(), touched.end(), [&](const Cut& cut) { return cut.thing == thing; });
        return !is_touched && mover.counts(thing, at);
    };
    WayOutSearch search = search_from(set, mover, others);
    search.places = other_places(set, mover.thing);
    const std::optional<WayOut> out = find_way_out(search, 0);
    const Field<Triple>* position = written_position(set, mover.thing);
    if (!out || position == nullptr) return {};
    // What is moved up stands there, so to the millimetre; what is moved aside gets some air.
    const bool is_up = out->way.y > 0.7F;
    const float distance = is_up ? std::round(1000 * exact_distance(search, *out)) / 1000
                                 : std::ceil(100 * out->distance) / 100;
    const Point middle = bounds_of(mover.cage).centre();
    if (!RoomWalls(set).may_move(middle, middle + distance * out->way)) return {};
    return {"; move it " + (is_up ? fine_length_text(distance) : length_text(distance)) + " " +
                way_text(out->way, set.scene.camera) + ": " +
                moved_text(*position, distance * out->way),
            is_up ? std::optional(distance) : std::nullopt};
}

std::string what_is_wrong(const StagedSet& set, const Cut& cut, const Advice& advice) {
    const std::string other = words_of(set, cut.thing, cut.crossed.material);
    if (cut.is_around) return "is inside " + other;
    if (!cut.out) return "cuts deep into " + other;
    const bool is_up = advice.up && cut.out->way.y > 0.7F;
    return "cuts " + (is_up ? fine_length_text(*advice.up) : length_text(cut.out->distance)) +
           " into " + other;
}

// The deepest cut of a mover, and what it cuts into.
struct FoundCut {
    Doubt doubt;
    Thing other;
};

std::optional<FoundCut> cut_of(const StagedSet& set, const Mover& mover) {
    std::vector<Cut> touched;
    std::optional<Cut> deepest;
    const auto depth = [](const Cut& cut) { return cut.out ? cut.out->distance : kInfinity; };
    for (Cut& cut : bodies_met(set, mover)) {
        if (only_touches(set, mover, cut)) {
            touched.push_back(cut);
        } else if (!deepest || depth(cut) > depth(*deepest)) {
            deepest = cut;
        }
    }
    const Field<Triple>* position = written_position(set, mover.thing);
    if (!deepest || position == nullptr) return std::nullopt;
    const Advice advice = find_advice(set, mover, touched);
    return FoundCut{doubt_at(*position, what_is_wrong(set, *deepest, advice) + advice.text),
                    deepest->thing};
}

}  // namespace

Doubts find_cuts(const StagedSet& set, const std::vector<Mover>& movers) {
    Doubts doubts;
    std::set<std::pair<Thing, Thing>> pairs;  // two glasses cut into each other once
    for (const Mover& mover : movers) {
        std::optional<FoundCut> cut = cut_of(set, mover);
        if (!cut || pairs.count({cut->other, mover.thing}) > 0) continue;
        pairs.emplace(mover.thing, cut->other);
        doubts.push_back(std::move(cut->doubt));
    }
    return doubts;
}

}  // namespace dapple
