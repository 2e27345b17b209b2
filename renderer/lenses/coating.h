// Reflectance of a boundary between two clear media with thin layers on it.
//
// The characteristic matrix of a layer (Macleod, Thin-Film Optical Filters; from memory):
//   [cosδ  i sinδ/η; iη sinδ  cosδ],  δ = 2π n d cosθ / λ,  η = n cosθ (s), n / cosθ (p)
// The layers' product times (1, η_last) is (B, C);  R = |(η_first B - C)/(η_first B + C)|²   (E118)
// The layers do not absorb, so what is not reflected passes, and R is the same from both sides.
// The light is unpolarised at every surface: R is the mean of s and p.
//   single  n₁ = max(√(n₀ n₂), 1.38), a quarter wave at 550 nm (Hullin et al. 2011)
//   multi   1.38, 2.10 and 1.38 √n: a quarter, a half and a quarter wave at 550 nm (textbook
//           design; the numbers are our own)
#pragma once

#include <vector>

#include "scene/scene.h"

namespace dapple {

struct ThinLayer {
    double index = 1;
    double thickness = 0;  // nm
};

// The layers between two media, from the one with `from`. Cemented glass has none.
std::vector<ThinLayer> make_layers(LensCoating coating, double from, double to);

struct PolarisedPair {
    double s = 0, p = 0;
    double mean() const { return 0.5 * (s + p); }
};

// For light in the medium `from` at an angle with this cosine. 1 at total reflection.
PolarisedPair layer_reflectance(
    const std::vector<ThinLayer>& layers, double from, double to, double cos_from, double nm);
PolarisedPair layer_transmittance(
    const std::vector<ThinLayer>& layers, double from, double to, double cos_from, double nm);

}  // namespace dapple
