#include "plausible/room/find_outside.h"

#include <algorithm>
#include <array>

#include "plausible/in_words.h"
#include "plausible/room/room_walls.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr std::array kWalls = {"the wall_left", "the floor", "the wall_back"};
constexpr std::array kFarWalls = {"the wall_right", "the ceiling", "the wall_front"};
constexpr std::array kAxes = {"x", "y", "z"};
constexpr float kFarOut = 1.0F;        // m, outside a model
constexpr float kBelowModel = 0.02F;   // m
constexpr float kLightOutside = 3.0F;  // m, from a fixture: what stands before its window

Point point_of(const Triple& t) {
    return Point(t[0], t[1], t[2]);
}

// `back`: moves the body into the box.
std::optional<Doubt> outside_of_box(const Field<Triple>& position,
                                    const Bounds& box,
                                    const Vec3& back) {
    const Point at = point_of(position.value);
    std::string hint = likely_place_text(position.value, box);
    if (hint.empty()) hint = "; inside: " + moved_text(position, back);
    for (int a = 0; a < 3; ++a) {
        if (at[a] >= box.low[a] - 1e-4F && at[a] <= box.high[a] + 1e-4F) continue;
        return doubt_at(position,
                        std::string("is outside the room: ") + kAxes[static_cast<size_t>(a)] +
                            " is " + number_text(at[a]) + ", and the room goes from " +
                            number_text(box.low[a]) + " to " + number_text(box.high[a]) + hint);
    }
    return std::nullopt;
}

// By how much a body may reach through a wall, m; our own values.
float reach_of(const Thing& thing) {
    switch (thing.kind) {
        case ThingKind::kGlass:
            return 0.005F;
        case ThingKind::kFigure:
            return 0.025F;
        default:
            return 0.02F;
    }
}

// Where the body reaches through a wall of the box, and how far it must come back in.
std::optional<Doubt> reaching_through(const StagedSet& set, const Mover& mover, const Bounds& box) {
    const Field<Triple>* position = written_position(set, mover.thing);
    const Bounds body = bounds_of(mover.cage);
    Vec3 back(0);
    std::string walls;
    for (int a = 0; a < 3; ++a) {
        const float below = box.low[a] - body.low[a];
        const float above = body.high[a] - box.high[a];
        const bool is_low = below > above;
        const float reach = std::max(below, above);
        // A lamp can be built into a ceiling.
        const bool is_built_in = a == 1 && !is_low && mover.thing.kind == ThingKind::kHousing;
        if (reach <= reach_of(mover.thing) || is_built_in) continue;
        back[a] = is_low ? below : -above;
        walls += (walls.empty() ? "" : " and ") + length_text(reach) + " through " +
                 (is_low ? kWalls : kFarWalls)[static_cast<size_t>(a)];
    }
    if (walls.empty() || position == nullptr) return std::nullopt;
    const std::string what = mover.thing.kind == ThingKind::kHousing ? "the housing" : "it";
    return doubt_at(*position,
                    what + " reaches " + walls + "; move it back: " + moved_text(*position, back));
}

Vec3 way_back(const Bounds& body, const Bounds& box) {
    return glm::max(box.low - body.low, Vec3(0)) - glm::max(body.high - box.high, Vec3(0));
}

Doubts outside_of_box_room(const StagedSet& set,
                           const std::vector<Mover>& movers,
                           const Bounds& box) {
    Doubts doubts;
    const auto add = [&](std::optional<Doubt> doubt) {
        if (doubt) doubts.push_back(std::move(*doubt));
        return doubt.has_value();
    };
    for (const ColumnDescription& column : set.written.columns) {
        const Point at = point_of(column.position.value);
        add(outside_of_box(column.position, box, glm::clamp(at, box.low, box.high) - at));
    }
    for (const Mover& mover : movers) {
        const Field<Triple>* position = written_position(set, mover.thing);
        if (position == nullptr) continue;
        const Vec3 back = way_back(bounds_of(mover.cage), box);
        if (add(outside_of_box(*position, box, back))) continue;
        if (mover.thing.kind != ThingKind::kBoard) add(reaching_through(set, mover, box));
    }
    return doubts;
}

bool has_light_near(const Scene& scene, const Point& p) {
    return std::any_of(scene.fixtures.begin(), scene.fixtures.end(), [&](const Fixture& f) {
        return glm::length(f.position - p) < kLightOutside;
    });
}

// A place behind the walls of the model.
Doubt outside_of_walls(const Field<Triple>& position, const Bounds& model) {
    std::string hint = likely_place_text(position.value, model);
    if (hint.empty()) {
        hint = "; the model goes from x = " + number_text(model.low.x) + " to " +
               number_text(model.high.x) + " and from z = " + number_text(model.low.z) + " to " +
               number_text(model.high.z);
    }
    return doubt_at(position, "is outside the room: the model's walls are before it" + hint, true);
}

std::optional<Doubt> outside_of_model(const StagedSet& set,
                                      const Mover& mover,
                                      const RoomWalls& walls) {
    const Field<Triple>* position = written_position(set, mover.thing);
    if (position == nullptr) return std::nullopt;
    const Bounds& model = walls.bounds();
    const Bounds body = bounds_of(mover.cage);
    const float below = model.low.y - body.high.y;
    if (below > kBelowModel) {
        return doubt_at(*position,
                        "is " + length_text(below) + " below everything in the model" +
                            likely_place_text(position->value, model),
                        true);
    }
    const bool is_fixture = mover.thing.kind == ThingKind::kHousing;
    const Point middle = is_fixture
                             ? set.scene.fixtures[static_cast<size_t>(mover.thing.index)].position
                             : body.centre();
    if (walls.shut_out(middle)) return outside_of_walls(*position, model);
    const Point nearest = glm::clamp(body.centre(), model.low, model.high);
    const float away = glm::length(body.centre() - nearest);
    const std::string hint = likely_place_text(position->value, model);
    if (away < kFarOut || (is_fixture && hint.empty())) return std::nullopt;
    if (!is_fixture && has_light_near(set.scene, body.centre())) return std::nullopt;
    return doubt_at(*position,
                    "looks as if it were outside: " + length_text(away) + " from the model" + hint,
                    true);
}

}  // namespace

Doubts find_outside(const StagedSet& set, const std::vector<Mover>& movers) {
    if (set.scene.room.empty()) return {};
    if (const std::optional<Bounds> box = box_of_room(set)) {
        return outside_of_box_room(set, movers, *box);
    }
    const RoomWalls walls(set);
    Doubts doubts;
    if (walls.shut_out(set.scene.camera.position)) {
        doubts.push_back(outside_of_walls(set.written.camera.position, walls.bounds()));
    }
    for (const Mover& mover : movers) {
        if (std::optional<Doubt> doubt = outside_of_model(set, mover, walls)) {
            doubts.push_back(std::move(*doubt));
        }
    }
    return doubts;
}

}  // namespace dapple
