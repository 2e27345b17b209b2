// Turns an outline about the y axis into a triangle mesh with exact normals.
//
// Surface: P(s, φ) = (R cosφ, y, R sinφ) with R(s, φ) = r(s) - depth f(y) (1 - cos Nφ)/2, N ribs
// whose crests keep the outline's radius and whose share f fades to 0 near both ends. Normal, from
// ∂P/∂s × ∂P/∂φ:   N ∝ y_s e_r - (y_s R_φ / R) e_φ - R_s e_y .                           (E41)
//
// How fine (E42): between vertices the normal is interpolated; its second difference counts.
// - Arcs and circles: interpolating along a chord gives the arc's normal exactly; the chord's
//   height decides: kChordError up to a radius of 50 mm, a ten-thousandth of the radius above.
// - Ribs: at a triangle's centre linear interpolation errs by a second difference over 9, and round
//   and up are given kNormalError each. The normal turns by arctan(R_φ/R) on the flanks, at most
//   a = depth N / 2R, and by arctan(depth f') in the fades.
#pragma once

#include <vector>

#include "geometry/make_glass_outline.h"

namespace dapple {

inline constexpr double kChordError = 5e-6;      // m
inline constexpr double kNormalError = 0.25e-3;  // rad, round and up each: 0.5 mrad in all

// Vertical ribs round the outside between two heights, fading in and out by a raised cosine.
struct Ribs {
    int count = 0;
    double depth = 0;  // m, crest to trough
    double low = 0;    // m, where the fade begins
    double high = 0;   // m, where it ends
    double fade = 0;   // m, length of each fade

    double share(double y) const;            // f, 0 to 1
    double share_slope(double y) const;      // df/dy, 1/m
    double cut(double y, double phi) const;  // m, how far the surface lies inside the outline
};

// A closed mesh in doubles, in the object's own frame. Creases have two vertices at one place.
struct SolidMesh {
    std::vector<glm::dvec3> positions;
    std::vector<glm::dvec3> normals;  // out of the solid
    std::vector<glm::uvec3> triangles;
};

// The outline must start and end on the axis.
SolidMesh make_lathe_mesh(const Outline& outline, const Ribs& ribs);

}  // namespace dapple
