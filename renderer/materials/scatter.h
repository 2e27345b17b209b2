// Types and conventions shared by everything that scatters light.
//
// Local shading frame: z along the shading normal on the surface's outer side. wo and wi are unit
// vectors away from the surface, wo towards where the walk came from. Densities are per steradian;
// f is per steradian and without the cosine.
//
// Each kind of scattering is a small struct with three functions:
//   Spectrum eval(kind, wo, wi, carrying)
//   float pdf(kind, wo, wi)
//   bool sample(kind, wo, u, carrying, BsdfSample&)      false: no direction, the walk ends
// One pdf serves all wavelengths: random choices depend on means over the pass's wavelengths or on
// the hero, never on another single wavelength.
#pragma once

#include "math/vec.h"
#include "spectrum/spectrum.h"

namespace dapple {

// What a walk carries from wo to wi. A camera walk computes the radiance that arrives along wi and
// leaves along wo; a light walk carries flux that arrives along wo. At refraction they differ by
// the square of the index ratio (Veach 1997, chapter 5).
enum class Carrying { kRadiance, kFlux };

struct BsdfSample {
    Direction wi{0, 0, 1};
    Spectrum weight;        // f |cosθi| / pdf
    float pdf = 0;          // per steradian; for a delta direction its probability
    float pdf_reverse = 0;  // the same from wi to wo
    bool delta = false;
    bool transmitted = false;
    bool dispersed = false;  // only the hero wavelength goes on

    // Starts a new sample. Assigning the whole struct would be slow to read back.
    void clear_kind() { delta = transmitted = dispersed = false; }
};

// A sample with its direction in the world.
struct WorldSample {
    BsdfSample local;  // smooth glass sets only z of its wi
    Direction wi{0, 0, 1};
};

inline bool same_side(const Direction& a, const Direction& b) {
    return a.z * b.z > 0.0F;
}
inline Direction mirrored(const Direction& w) {
    return Direction(-w.x, -w.y, w.z);
}

// Mirrors a direction to the other side. Materials with equal sides are computed on the +z side.
inline Direction flipped(const Direction& w) {
    return Direction(w.x, w.y, -w.z);
}
inline Direction on_side_of(const Direction& w, const Direction& side) {
    return side.z < 0.0F ? flipped(w) : w;
}

// Below this GGX width a lobe is narrower than 0.06 degrees and is treated as a mirror direction.
inline constexpr float kSmoothAlpha = 1e-3F;

}  // namespace dapple
