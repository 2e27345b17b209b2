// Finds out whether some triangles are one flat rectangle, as a window in a wall is.
//
// Corners: the two points farthest apart, and on each side of the line between them the farthest
// point. They are a rectangle if the two diagonals have the same length and the same middle, and
// the triangles cover it if the areas agree, all within kFlatness (E67).
#pragma once

#include <optional>
#include <string>

#include "scene/scene.h"

namespace dapple {

inline constexpr float kFlatness = 1e-3F;  // m

struct Rectangle {
    Point centre{0};
    Direction facing{0, 0, 1};  // the front of its triangles
    Direction up{0, 1, 0};      // along its height
    Vec2 size{0};               // m, width and height
};

struct RectangleSearch {
    std::optional<Rectangle> found;
    std::string problem;  // if none was found: "is bent by 12 mm"
};

// The triangles may cover the rectangle twice, as a face with two sides does.
RectangleSearch find_rectangle(const Mesh& mesh, const std::vector<uint32_t>& triangles);

}  // namespace dapple
