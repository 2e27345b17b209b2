// A round hood before the front element.
//
// Its rim is as narrow as the picture's corners allow:  R = ρ + (p + ℓ) tanω, with the entrance
// pupil's radius ρ and depth p, the hood's length ℓ before the first vertex, and ω half the angle
// of the picture's diagonal. Light at the angle θ from the axis then reaches the part of the front
// element (radius a) where two discs overlap whose centres are ℓ tanθ apart; none if    (E121)
//   ℓ tanθ >= a + R
// (geometry of two circles).
#pragma once

#include <optional>

#include "lenses/trace_lens.h"

namespace dapple {

struct Hood {
    double length = 0;      // mm; 0: none
    double rim_radius = 0;  // mm
    double front_radius = 0;

    // Share of the front element that light at this angle from the axis reaches.
    double lit_share(double angle) const;
    // Whether light in this direction comes past the rim to (x, y) of the first vertex's plane.
    bool lets_in(const LensRay& ray) const;
};

Hood make_hood(const Camera& camera, const RealLens& lens, double length);

// The shortest length, mm, that shades the front element from light at this angle. Nothing if the
// angle is too close to the picture's corners for a hood of at most `longest`.
std::optional<double> hood_against(const Camera& camera,
                                   const RealLens& lens,
                                   double angle,
                                   double longest);

// The angle from the axis beyond which the hood shades the front element, rad.
double dark_angle(const Hood& hood);

// Half the angle of the picture's diagonal, rad.
double half_diagonal_angle(const Camera& camera);

}  // namespace dapple
