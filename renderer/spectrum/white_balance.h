// From a light's XYZ to the linear Rec.709 picture, and to sRGB code values.
//
// One white is used everywhere: the XYZ of our own 380–780 nm integral of CIE D65, which is
// xy (0.31274, 0.32905), so that what is white under D65 is R = G = B exactly. (The rounded
// 0.3127, 0.3290 of the standard would leave 3e-4 between the channels.)
// Sources: primaries and D65, ITU-R BT.709-6; sRGB curve, IEC 61966-2-1; Bradford cone matrix,
// Lam 1985, as in CIE 159:2004 (its linear form).
#pragma once

#include "math/vec.h"

namespace dapple {

Xyz d65_white();  // Y = 1

// Maps XYZ seen under one white to the XYZ that looks alike under another.                   (E153)
DMat3 bradford_adaptation(const Xyz& from_white, const Xyz& to_white);

// The white (Y = 1) of a camera that is set to `white_k`: CIE daylight from 4000 K up,
// Planckian up to 3500 K. Between the two the offset of daylight from the Planckian locus
// (Duv 0.0027 at 4000 K) is faded in, so that no step shows; no standard says how to join them
// (E152).
Xyz white_point_of(double white_k);

const DMat3& xyz_from_linear_rec709();  // matrices; Y = 1 for white (E154)
const DMat3& linear_rec709_from_xyz();
Rgb linear_rec709_from_xyz(const Xyz& xyz);
Xyz xyz_from_linear_rec709(const Rgb& rgb);

// One channel, 0 … 1 to 0 … 1. The curve continues above 1 and is odd about 0 (E157).
float srgb_encode(float linear);
float srgb_decode(float code);

}  // namespace dapple
