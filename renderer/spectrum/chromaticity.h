// Chromaticities, and the correlated colour temperature (CCT) and Duv of a light.
//
//   x = X/(X+Y+Z), y = Y/(X+Y+Z)                 CIE 1931
//   u = 4x/(-2x+12y+3), v = 6y/(-2x+12y+3)       CIE 1960                                (E18)
// CCT is the temperature of the Planckian radiator whose (u, v) is nearest. Duv is the distance to
// it, positive above the locus (greenish), negative below (pinkish) (ANSI C78.377) (E19). The locus
// is integrated with our own observer, 380–780 nm. For chromaticities from other sources this gives
// 2 K more at 6500 K than the 360–830 nm of the standards, and less than 0.2 K more up to 4000 K.
#pragma once

#include "math/vec.h"

namespace dapple {

struct Xy {
    double x, y;
};

struct Uv {
    double u, v;
};

struct CctDuv {
    double cct_k;
    double duv;
};

// The locus covers these temperatures; outside, the nearest end is used.
inline constexpr double kMinCct = 800.0;  // K
inline constexpr double kMaxCct = 200000.0;

Xy xy_of(const Xyz& xyz);
Uv uv_1960(const Xyz& xyz);
Uv uv_1960(Xy xy);
Xy xy_of(Uv uv);
Xyz xyz_of(Xy xy);  // Y = 1

// Exact to 0.01 K and 1e-6 for 1000 … 25000 K. CCT means little beyond |Duv| = 0.05 (CIE 15).
CctDuv cct_duv_of(const Xyz& xyz);
CctDuv cct_duv_of(Xy xy);

Uv planckian_uv(double kelvin);
Xy planckian_xy(double kelvin);
// The inverse of cct_duv_of: steps `duv` off the locus along its normal.
Xy xy_from_cct_duv(double cct_k, double duv);

// The same for many Duv of one CCT.
class DuvLine {
  public:
    explicit DuvLine(double cct_k);
    Xy at(double duv) const;

  private:
    Uv at_locus_{}, normal_{};
};

}  // namespace dapple
