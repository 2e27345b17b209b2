// How far a light walk's next point moves when its first direction does: the size and shape of the
// spot that the walk stands for among all walks of its pass (Igehy 1999; Frisvad et al. 2014).
//
//   begin     dD_i = √(κ Ω/π) e_i,  Ω = 1/(N pω) the solid angle of one walk, e_i ⟂ D       (E68)
//   to a surface      dP ← dP + t dD, along D onto its plane
//   mirror            dD ← dD - 2 ((D·n) dn + d(D·n) n)
//   refraction        dD ← η dD - μ dn - dμ n,  μ = η (D·n) - D'·n                          (E69)
// with dn how the interpolated normal turns over dP. The two dP span the half-axes of an ellipse.
//
// A third column tells how the point moves with the wavelength where glass disperses, by
// c = 1/λ², in which indices are nearly straight (Elek et al. 2014):
//   refraction        dD ← … + (D - dμ/dη n) dη/dc,  dμ/dη = D·n + η (1 - (D·n)²)/(D'·n)    (E70)
// The spread over the lamp's face is left out: it stays noise, which passes average.
#pragma once

#include "transport/walk.h"

namespace dapple {

class PhotonDifferential {
  public:
    // `solid_angle`: κ Ω, sr.
    void begin(const Direction& direction, float solid_angle);

    // The walk went `distance` m along `direction` to a surface with this geometric normal.
    void arrive(float distance, const Direction& direction, const Normal& geometric);

    // It left the vertex towards `leaving`. Anything but a smooth event ends what is known.
    void leave(const Stage& stage, const Vertex& vertex, const Walk& walk);

    bool is_known() const { return known_; }
    Vec3 half_axis(size_t i) const { return position_.at(i); }
    // Per unit of the stage's wavelength coordinate c.
    Vec3 dispersion() const { return position_.at(2); }

  private:
    bool known_ = false;
    // Two half-axes and the dispersion.
    FourVectors position_;
    FourVectors direction_;
};

// How far apart dispersive glass has sent the walk's wavelengths at its present vertex, m; infinite
// where that is not known.
float dispersed_m(const Stage& stage, const Walk& walk, const PhotonDifferential& differential);

}  // namespace dapple
