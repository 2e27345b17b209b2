// A set as it is written, as it is understood, and as rays meet it; and how messages name its
// things.
#pragma once

#include <optional>
#include <string>

#include "geometry/world.h"
#include "plausible/doubt.h"
#include "scene/scene.h"
#include "set/set_description.h"
#include "transport/lens.h"

namespace dapple {

struct StagedSet {
    const SetDescription& written;
    const Scene& scene;
    const World& world;
    Lens lens = Lens(scene.camera, true);  // as the picture is drawn
};

// Where the position of a thing is written. Nothing for the room, for doors, and for windows.
const Field<Triple>* written_position(const StagedSet& set, const Thing& thing);

// The description of a flag, a cloth or a bounce; nullptr for a door.
const BoardDescription* written_board(const StagedSet& set, int board);

// `the column "pillar"`, `the stand of "key"`; for the room, the surface that was met.
std::string words_of(const StagedSet& set, const Thing& thing, MaterialId met = kNoMaterial);

// Whether the surface is part of the room's shape: the room itself, its doors and its windows.
bool is_of_room(const Scene& scene, const Thing& thing);

// The walls of a room of size_m; nothing for a model or without a room.
std::optional<Bounds> box_of_room(const StagedSet& set);

// A doubt at a key of the set file.
template <typename T>
Doubt doubt_at(const Field<T>& field, std::string message, bool is_guess = false) {
    return make_doubt(field.place, field.key, std::move(message), is_guess);
}

}  // namespace dapple
