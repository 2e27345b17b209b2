// Meridian outlines: the lines and arcs that a solid of revolution is made from.
//
// Plane (r, y): r from the axis, y up, metres. An outline runs with the solid on its left: out
// along the underside, up the outside, over the rim, down the cavity, back to the axis. Along a
// piece of curvature κ (1/m, left bends positive) the heading is h(s) = h0 + κ s and the point is
//   p(s) = p0 + ((sin h - sin h0), (cos h0 - cos h)) / κ ,                               (E54)
// so position and normal are exact everywhere; the normal (sin h, -cos h) points out of the solid.
#pragma once

#include <vector>

#include "math/vec.h"

namespace dapple {

struct OutlinePiece {
    glm::dvec2 start{0};     // m
    double heading = 0;      // rad, from the +r direction towards +y
    double length = 0;       // m
    double curvature = 0;    // 1/m; 0 is a line
    bool patterned = false;  // the relief is cut into this piece
};

using Outline = std::vector<OutlinePiece>;

double heading_at(const OutlinePiece& piece, double s);
glm::dvec2 position_at(const OutlinePiece& piece, double s);
glm::dvec2 normal_at(const OutlinePiece& piece, double s);

// Draws an outline piece by piece. Every bend is tangent to the piece before it.
class OutlinePen {
  public:
    OutlinePen(const glm::dvec2& start, double heading) : at_(start), heading_(heading) {}

    // A straight line to the height or radius; nothing if the pen is there already.
    OutlinePen& line_to_height(double y, bool patterned = false);
    OutlinePen& line_to_radius(double r);
    // An arc; a positive angle bends to the left. The arc is divided where the heading is a
    // multiple of 90°, so that the widest, highest and lowest places are ends of pieces.
    OutlinePen& bend(double radius, double angle);

    size_t size() const { return outline_.size(); }
    const Outline& outline() const { return outline_; }

  private:
    void add(double length, double curvature, bool patterned);

    Outline outline_;
    glm::dvec2 at_;
    double heading_;
};

// The outline moved by `distance` along its normals; arcs keep their centres.
Outline offset_outline(const Outline& outline, double distance);
// The same curve walked from its end to its start.
Outline reversed_outline(const Outline& outline);

}  // namespace dapple
