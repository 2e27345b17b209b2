#include "plausible/staged_set.h"

namespace dapple {

namespace {

// Doors come before the other boards, in the scene's list.
size_t doors_of(const StagedSet& set) {
    return set.written.doors.size();
}

std::string quoted(const std::string& name) {
    return "\"" + name + "\"";
}

const char* board_word(BoardKind kind) {
    switch (kind) {
        case BoardKind::kDiffuser:
            return "the cloth ";
        case BoardKind::kFlag:
            return "the flag ";
        case BoardKind::kBounce:
            return "the board ";
        case BoardKind::kDoor:
            break;
    }
    return "the door ";
}

}  // namespace

const BoardDescription* written_board(const StagedSet& set, int board) {
    auto index = static_cast<size_t>(board);
    if (index < doors_of(set)) return nullptr;
    index -= doors_of(set);
    for (const auto* list : {&set.written.diffusers, &set.written.flags, &set.written.bounces}) {
        if (index < list->size()) return &(*list)[index];
        index -= list->size();
    }
    return nullptr;
}

const Field<Triple>* written_position(const StagedSet& set, const Thing& thing) {
    const auto index = static_cast<size_t>(thing.index);
    switch (thing.kind) {
        case ThingKind::kGlass:
            return &set.written.glasses[index].position;
        case ThingKind::kBoard: {
            const BoardDescription* board = written_board(set, thing.index);
            return board == nullptr ? nullptr : &board->position;
        }
        case ThingKind::kColumn:
            return &set.written.columns[index].position;
        case ThingKind::kFigure:
            return &set.written.stand_ins[index].position;
        case ThingKind::kLamp:
        case ThingKind::kHousing:
        case ThingKind::kStand:
            if (set.scene.fixtures[index].is_window) return nullptr;
            return &set.written.fixtures[index].position;
        case ThingKind::kRoom:
            break;
    }
    return nullptr;
}

std::string words_of(const StagedSet& set, const Thing& thing, MaterialId met) {
    const Scene& scene = set.scene;
    const auto index = static_cast<size_t>(thing.index);
    switch (thing.kind) {
        case ThingKind::kGlass:
            return "the glass " + quoted(scene.glasses[index].name);
        case ThingKind::kBoard:
            return board_word(scene.boards[index].kind) + quoted(scene.boards[index].name);
        case ThingKind::kColumn:
            return "the column " + quoted(scene.columns[index].name);
        case ThingKind::kFigure:
            return "the figure " + quoted(scene.stand_ins[index].name);
        case ThingKind::kLamp:
        case ThingKind::kHousing:
            return "the fixture " + quoted(scene.fixtures[index].name);
        case ThingKind::kStand:
            return "the stand of " + quoted(scene.fixtures[index].name);
        case ThingKind::kRoom:
            break;
    }
    if (met == kNoMaterial) return "the room";
    return quoted(scene.materials[static_cast<size_t>(met)].name);
}

bool is_of_room(const Scene& scene, const Thing& thing) {
    const auto index = static_cast<size_t>(thing.index);
    if (thing.kind == ThingKind::kRoom) return true;
    if (thing.kind == ThingKind::kLamp) return scene.fixtures[index].is_window;
    return thing.kind == ThingKind::kBoard && scene.boards[index].kind == BoardKind::kDoor;
}

std::optional<Bounds> box_of_room(const StagedSet& set) {
    if (!set.written.room.size_m.given || set.scene.room.empty()) return std::nullopt;
    Bounds box;
    for (const Point& p : set.scene.room.front().positions) box.add(p);
    return box;
}

}  // namespace dapple
