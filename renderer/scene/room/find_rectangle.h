// Whether some triangles are one flat rectangle, as an opening in a wall is.
//
// Corners: the two points farthest apart, and the farthest to either side of the line between them.
// They are a rectangle where the two diagonals are equally long and halve each other, and all of it
// is covered where the areas agree. Everything is asked within kFlatness (E122).
#pragma once

#include <optional>
#include <string>

#include "scene/scene.h"

namespace dapple {

inline constexpr float kFlatness = 1e-3F;  // m

struct Rectangle {
    Point centre{0};
    Direction facing{0, 0, 1};  // to the side that its triangles are wound for
    Direction up{0, 1, 0};      // along its height
    Vec2 size{0};               // m, width and height
};

struct RectangleSearch {
    std::optional<Rectangle> found;
    std::string trouble;  // where there is none: "is bent by 12 mm"
};

// Triangles may lie twice, one on the other, as faces of two sides do.
RectangleSearch find_rectangle(const Mesh& mesh, const std::vector<uint32_t>& triangles);

}  // namespace dapple
