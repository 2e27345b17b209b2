// [[diffuser]], [[flag]] and [[bounce]] to Board.
#include "scene/build_material.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/scene_parts.h"

namespace dapple {

namespace {

constexpr double kMaxBoard = 100;  // m

void build_board_size(const BoardDescription& description, Board& board, Problems& problems) {
    if (description.size_m.written == description.diameter_m.written) {
        problems.add(description.size_m.written ? description.diameter_m.place : description.place,
                     description.label,
                     "needs exactly one of size_m = [width, height] and diameter_m");
        return;
    }
    board.round = description.diameter_m.written;
    if (board.round) {
        const auto diameter =
            static_cast<float>(checked_positive(description.diameter_m, 1, kMaxBoard, problems));
        board.size = Vec2(diameter, diameter);
    } else {
        board.size = checked_size(description.size_m, board.size, kMaxBoard, problems);
    }
}

Material build_board_material(const BoardDescription& description,
                              BoardKind kind,
                              Problems& problems) {
    Material material;
    switch (kind) {
        case BoardKind::kDiffuser:
            build_sheet(
                description.sheet,
                description.reflectance,
                kDiffuserTransmission,
                [](double transmission) {
                    return Rgb(static_cast<float>(kDiffuserReflected * (1 - transmission)));
                },
                material,
                problems);
            break;
        case BoardKind::kFlag:
            material.reflectance = Rgb(kFlagReflectance);
            break;
        case BoardKind::kBounce:
            material.reflectance = checked_colour(
                description.reflectance, Rgb(kBounceReflectance), kMaxReflectance, problems);
            if (description.roughness.written) {  // silver, gold
                material.kind = MaterialKind::kConductor;
                material.roughness = static_cast<float>(
                    checked_range(description.roughness, kMetalRoughness, 0, 1, problems));
            }
            break;
    }
    return material;
}

void add_board(const BoardDescription& description,
               BoardKind kind,
               Scene& scene,
               Problems& problems) {
    Board board;
    board.name = name_or_label(description.name, description);
    board.kind = kind;
    board.centre = checked_point(description.position, problems);
    board.facing = checked_aim(description.aim, description.position, "its face looks", problems);
    build_board_size(description, board, problems);
    board.material = static_cast<MaterialId>(scene.materials.size());
    scene.materials.push_back(build_board_material(description, kind, problems));
    scene.materials.back().name = board.name;
    scene.boards.push_back(board);
}

}  // namespace

void build_boards(const SetDescription& set, Scene& scene, Problems& problems) {
    for (const BoardDescription& board : set.diffusers) {
        add_board(board, BoardKind::kDiffuser, scene, problems);
    }
    for (const BoardDescription& board : set.flags) {
        add_board(board, BoardKind::kFlag, scene, problems);
    }
    for (const BoardDescription& board : set.bounces) {
        add_board(board, BoardKind::kBounce, scene, problems);
    }
}

}  // namespace dapple
