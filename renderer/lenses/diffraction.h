// Diffraction at the aperture: the halo and the star around something bright.
//
// Fraunhofer (Born and Wolf, Principles of Optics): an exit pupil of transmission a over the area
// A, at the distance z from the film, spreads a point to
//   S(x) = |∫ a(ξ) exp(-2πi x·ξ/(λz)) dξ|² / (λ² z² ∫ |a|² dξ)                             (E122)
// which integrates to 1 and scales with λN. A transform gives it near the point, with dust. Further
// out only the edges of the stop count. An edge of the length ℓ sends to both sides, along its
// normal, and averaged over the fringes, the part of the light
//   dE = λ z ℓ / (4π² A r²) dr                                                             (E123)
// (our own, from the edge's integral; its sum for a round stop is 2λN/(π² r) outside r). So there
// is a ray for each edge normal and one opposite: n for an even number of blades, 2n for an odd
// one.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "lenses/real_lens.h"

namespace dapple {

// Specks and scratches on the glass, as they lie in the pupil.
struct Dust {
    int specks = 0;
    int scratches = 0;
    uint64_t seed = 1;
};

// Spread at the wavelength λ on a square grid around the point, rows of `size`, the point at
// (size/2, size/2). Its values add up to 1.
struct DiffractionSpread {
    int size = 0;
    double pitch = 0;  // in units of λN
    std::vector<float> values;

    float at(int dx, int dy) const {
        const int half = size / 2;
        return values[static_cast<size_t>((dy + half) * size + dx + half)];
    }
};

// Of an aperture that passes a(x, y), with lengths in diameters of the round stop of the same
// f-number; `across`: samples across that diameter.
DiffractionSpread diffract(const std::function<float(double x, double y)>& passes,
                           int across,
                           int size);

// The stop with dust on it. `pupil_mm`: diameter of the entrance pupil.
std::function<float(double x, double y)> aperture_of(const StopShape& stop,
                                                     double pupil_mm,
                                                     const Dust& dust);

// The normals of the stop's edges, rad, and the length of an edge, in diameters of the round stop.
struct StopEdges {
    std::vector<double> normals;  // none: round
    double length = 0;
};
StopEdges edges_of(const StopShape& stop);

// The directions of the star's rays, rad in [0, 2π), each once.
std::vector<double> star_rays(const StopShape& stop);

}  // namespace dapple
