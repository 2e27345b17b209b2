// Distance from a point to an outline, from the pieces' own geometry and not from any mesh.
#pragma once

#include <algorithm>
#include <cmath>

#include "geometry/glassware/make_glass_outline.h"

namespace dapple {

struct OutlineFoot {
    const OutlinePiece* piece = nullptr;
    double s = 0;  // m, along the piece
    double distance = kInfinity;
};

// The point's foot on a line or arc, m along the piece and clamped to its ends.
inline double foot_along(const OutlinePiece& piece, const glm::dvec2& p) {
    if (piece.curvature == 0) {
        const glm::dvec2 along(std::cos(piece.heading), std::sin(piece.heading));
        return std::clamp(glm::dot(p - piece.start, along), 0.0, piece.length);
    }
    // The centre is 1/κ to the left; towards p the radius has the normal's direction.
    const glm::dvec2 centre = piece.start - normal_at(piece, 0) / piece.curvature;
    const glm::dvec2 n = glm::normalize(p - centre) * (piece.curvature > 0 ? 1.0 : -1.0);
    const double heading = std::atan2(n.x, -n.y);
    const double turned = std::remainder(heading - heading_at(piece, 0.5 * piece.length), 2 * kPi);
    return std::clamp(0.5 * piece.length + turned / piece.curvature, 0.0, piece.length);
}

// The nearest foot. Where `facing` is given, only pieces that face its way count, because a deep
// trough can be nearer to the cavity's side than to its own.
inline OutlineFoot nearest_on(const Outline& outline,
                              const glm::dvec2& p,
                              const glm::dvec2& facing = glm::dvec2(0)) {
    OutlineFoot nearest;
    for (const OutlinePiece& piece : outline) {
        const double s = foot_along(piece, p);
        const double distance = glm::length(position_at(piece, s) - p);
        if (distance >= nearest.distance || glm::dot(normal_at(piece, s), facing) < 0) continue;
        nearest = {&piece, s, distance};
    }
    return nearest;
}

}  // namespace dapple
