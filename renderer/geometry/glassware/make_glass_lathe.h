// Turns an outline about the y axis into a triangle mesh with exact normals.
//
// Surface: P(s, φ) = (R cosφ, y, R sinφ) with R(s, φ) = r(s) - cut(φ, y), the cut of
// make_glass_relief.h. Normal, from ∂P/∂s × ∂P/∂φ:
//   N ∝ y_s e_r - (y_s R_φ / R) e_φ - R_s e_y .                                             (E55)
//
// How fine the mesh is (E56). The normal is interpolated between vertices; its error is a second
// difference.
// - Arcs and circles: interpolation along a chord gives the arc's normal exactly. The limit is the
//   chord's height: kChordError up to a radius of 50 mm, a ten-thousandth of the radius above.
// - Ribs: at a triangle's centre the error of linear interpolation is a second difference over 9.
// The
//   directions around and up may each have kNormalError. The normal turns by arctan(R_φ/R) on the
//   flanks and by arctan(depth f') in the fades. Rows of vertices follow twisted ribs.
// - Dents and waves: the same step in both directions, from the bend of their slope; at most
//   kMaxReliefCells quads.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/glassware/make_glass_outline.h"
#include "geometry/glassware/make_glass_relief.h"

namespace dapple {

inline constexpr double kChordError = 5e-6;      // m
inline constexpr double kNormalError = 0.25e-3;  // rad, around and up each: 0.5 mrad together
inline constexpr int kSegmentsPerReed = 10;      // so that vertices are where its arcs join
inline constexpr double kMaxReliefCells = 4e5;   // quads; a finer mesh is of no use

// A closed mesh in doubles, in the object's own frame. Creases have two vertices at one place.
struct SolidMesh {
    std::vector<glm::dvec3> positions;
    std::vector<glm::dvec3> normals;  // out of the solid
    std::vector<glm::uvec3> triangles;
    size_t inner = SIZE_MAX;  // triangles from here on are its inside: a cavity, a pane's back
};

// The outline must start and end on the axis. Its pieces from `inner_piece` on are the inside.
SolidMesh make_lathe_mesh(const Outline& outline,
                          const Relief& relief,
                          size_t inner_piece = SIZE_MAX);

// The number of steps along `length` metres in a pattern of dents or waves that covers `area` m².
int relief_steps(const Relief& relief, double length, double area);
// The number of steps across a reed; the caller rounds it up to a multiple of kSegmentsPerReed. The
// slope of a reed is linear in u and its angle nearly so: with t the tangent at the reed's edge,
// the angle bends by t³ over the square of the groove's half width.
double reed_steps(const Relief& relief, double radius);

}  // namespace dapple
