// Turns an outline about the y axis into a triangle mesh with exact normals.
//
// Surface: P(s, φ) = (R cosφ, y, R sinφ) with R(s, φ) = r(s) - cut(φ, y), the cut of
// make_glass_relief.h. Normal, from ∂P/∂s × ∂P/∂φ:
//   N ∝ y_s e_r - (y_s R_φ / R) e_φ - R_s e_y .                                             (E41)
//
// How fine (E42): between vertices the normal is interpolated; its second difference counts.
// - Arcs and circles: interpolating along a chord gives the arc's normal exactly; the chord's
//   height decides: kChordError up to a radius of 50 mm, a ten-thousandth of the radius above.
// - Ribs: at a triangle's centre linear interpolation errs by a second difference over 9, and round
//   and up are given kNormalError each. The normal turns by arctan(R_φ/R) on the flanks and by
//   arctan(depth f') in the fades. Where ribs turn on their way up, so do the rows of vertices.
// - Dents and waves: alike both ways, by the bend of their slope; no finer than kMaxReliefCells.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/glassware/make_glass_outline.h"
#include "geometry/glassware/make_glass_relief.h"

namespace dapple {

inline constexpr double kChordError = 5e-6;      // m
inline constexpr double kNormalError = 0.25e-3;  // rad, round and up each: 0.5 mrad in all
inline constexpr int kSegmentsPerReed = 10;      // so that vertices lie where its arcs join
inline constexpr double kMaxReliefCells = 4e5;   // quads; more and a mesh outgrows its use

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

// Steps along `length` metres that a pattern of dents or waves needs over an area.
int relief_steps(const Relief& relief, double length, double area);
// Steps across a reed, to be rounded up to a multiple of kSegmentsPerReed. Its slope is linear in u
// and its angle nearly so: with t the tangent at the reed's edge it bends by t³ over the square of
// the groove's half width.
double reed_steps(const Relief& relief, double radius);

}  // namespace dapple
