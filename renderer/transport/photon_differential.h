// How far a light walk's present point moves when its first direction changes. This is the size and
// shape of the spot that the walk stands for among all walks of its pass (Igehy 1999; Frisvad et
// al. 2014).
//
//   start             dD_i = √(κ Ω/π) e_i,  Ω = 1/(N pω) the solid angle of one walk, e_i ⟂ D (E76)
//   to a surface      dP ← dP + t dD, projected along D onto the surface's plane
//   mirror            dD ← dD - 2 ((D·n) dn + d(D·n) n)
//   refraction        dD ← η dD - μ dn - dμ n,  μ = η (D·n) - D'·n                          (E77)
// dn is the change of the interpolated normal over dP. The two dP span the half-axes of an ellipse.
//
// A third column is the derivative of the point by c = 1/λ², because glass disperses. Indices are
// nearly linear in c (Elek et al. 2014):
//   refraction        dD ← … + (D - dμ/dη n) dη/dc,  dμ/dη = D·n + η (1 - (D·n)²)/(D'·n)    (E78)
// The spread over the lamp's face is left out. It remains as noise, which passes average.
#pragma once

#include "transport/walk.h"

namespace dapple {

class PhotonDifferential {
  public:
    // `solid_angle`: κ Ω, sr.
    void begin(const Direction& direction, float solid_angle);

    // The walk moved `distance` m along `direction` to a surface with this geometric normal.
    void arrive(float distance, const Direction& direction, const Normal& geometric);

    // The walk left the vertex along its new ray. After a rough event the differential is unknown.
    void leave(const Stage& stage, const Vertex& vertex, const Walk& walk);

    bool is_known() const { return known_; }
    Vec3 half_axis(size_t i) const { return position_.at(i); }
    // m per unit of the stage's wavelength coordinate c.
    Vec3 dispersion() const { return position_.at(2); }

  private:
    bool known_ = false;
    // Two half-axes and the dispersion.
    FourVectors position_;
    FourVectors direction_;
};

// The distance between the walk's shortest and longest wavelength at its present vertex, m;
// infinite if it is unknown. Below the limits of E79 the walk stands for all wavelengths again:
//   at a light walk's rough vertex 10 ℓ p,  in a photon ℓ p/4,
//   in a camera walk ℓ/4 times the radius of its pixel as seen there                        (E79)
// ℓ is Stage::dispersion_limit, p the median width of a pixel on the surfaces seen, m.
float dispersed_m(const Stage& stage, const Walk& walk, const PhotonDifferential& differential);

}  // namespace dapple
