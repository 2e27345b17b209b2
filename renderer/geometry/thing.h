// What a surface belongs to: a thing of the set, or the room.
#pragma once

#include <compare>

namespace dapple {

enum class ThingKind {
    kRoom,
    kGlass,    // index into Scene::glasses
    kBoard,    // index into Scene::boards
    kColumn,   // index into Scene::columns
    kFigure,   // index into Scene::stand_ins
    kLamp,     // the face of a lamp; index into Scene::fixtures, as below
    kHousing,  // the body of a fixture, its barn doors or its snoot
    kStand,
};

struct Thing {
    ThingKind kind = ThingKind::kRoom;
    int index = -1;

    auto operator<=>(const Thing&) const = default;
};

}  // namespace dapple
