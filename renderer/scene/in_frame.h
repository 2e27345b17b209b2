// Things of the set that the lens sees and that a portrait should not show: fixtures, stands,
// glass, cloths, flags, boards and cables. Glass that stands on a table, on the floor or on a board
// is a prop and no such thing.
//
// A pixel counts for a thing if the ray through the pixel's centre and the lens's centre meets it:
// directly, in a mirror, or through smooth glass. Things out of focus therefore blur a little
// beyond their pixels. The reflections in glass and in varnished or wet surfaces are not followed.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "math/vec.h"

namespace dapple {

enum class InFrameKind { kFixture, kHousing, kStand, kGlass, kCloth, kFlag, kBounce, kCable };
enum class SeenWay { kDirect, kInMirror, kThroughGlass };

// As the camera sees it: to the left or right of the frame, or upwards or downwards in the room.
enum class MoveWay { kLeft, kRight, kUp, kDown };
inline constexpr std::array<MoveWay, 4> kAllMoveWays = {
    MoveWay::kLeft, MoveWay::kRight, MoveWay::kUp, MoveWay::kDown};

struct Move {
    MoveWay way = MoveWay::kLeft;
    double distance = 0;  // m, whole centimetres
};

struct InFrameThing {
    std::string name;  // of the fixture for its lamp, housing, stand and cable
    InFrameKind kind = InFrameKind::kFixture;
    SeenWay way = SeenWay::kDirect;
    int64_t pixels = 0;
    double share = 0;               // of the frame's pixels
    glm::ivec4 box{0};              // px: x0, y0, x1, y1; the last two not included
    std::array<bool, 4> touches{};  // the left, right, top and bottom edge of the frame
    // The shortest move that takes the whole thing out of the frame and keeps it in the room: of
    // the thing (a fixture with all that is fixed to it), or of the camera. Nothing for what is
    // seen in a mirror or through glass, for cables, and where no such move exists.
    std::optional<Move> of_thing, of_camera;
};

struct InFrame {
    int width = 0, height = 0;
    std::vector<InFrameThing> things;  // most pixels first
    std::vector<float> mask;           // 1 in the pixels of these things, else 0; rows from the top
};

}  // namespace dapple
