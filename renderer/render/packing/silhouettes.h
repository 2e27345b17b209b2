// Outlines of meshes as the views of the day sheet show them.
#pragma once

#include "scene/day_sheet.h"

namespace dapple {

// The smallest convex polygon around the points (Andrew 1979, monotone chain).
FlatPolygon convex_hull(std::vector<Vec2> points);

// Around the whole mesh. Nothing for an empty mesh.
std::vector<FlatPolygon> outline_of(const Mesh& mesh, SheetView view, bool side_shows_z);
// Around each connected part of the mesh.
std::vector<FlatPolygon> outlines_of_parts(const Mesh& mesh, SheetView view, bool side_shows_z);

// Where a plane cuts the meshes, as pairs of ends. The plane is across the axis `axis` (0 to 2), at
// `at`; the ends have the other two coordinates in the order of `view`.
std::vector<Vec2> cut_of(
    const std::vector<Mesh>& meshes, int axis, float at, SheetView view, bool side_shows_z);

}  // namespace dapple
