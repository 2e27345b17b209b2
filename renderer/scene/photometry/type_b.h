// Photometry of type B, which floodlights have, as directions from the axis.
//
// The lamp is turned up by V about its horizontal axis, then light goes H to the right in that
// plane, as seen from behind:
//   right = sin H    up = sin V cos H    ahead = cos V cos H                               (E10)
//   cos γ = cos V cos H    tan φ = sin V / tan H
// From memory: the B-planes of CIE 121-1996, whose axis is the horizontal one, with B = V, β = H.
#pragma once

#include <optional>

#include "scene/photometry/photometry.h"
#include "scene/photometry/photometry_checks.h"
#include "set/photometry/photometry_description.h"

namespace dapple {

// Candela at V and H, degrees, linear in both between the file's angles; 0 beyond them. Where
// angles begin at 0, the other side is the same.
double type_b_candela(const IesDescription& ies, double v, double h);

// A table of directions as fine as the file's angles, in candela times `scale`. Returns nothing,
// with a problem, if the angles are not those of type B.
std::optional<Photometry> build_type_b(const IesDescription& ies,
                                       double scale,
                                       const PhotometryChecks& check);

}  // namespace dapple
