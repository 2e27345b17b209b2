// The glow of haze: what the lens sees of light that haze scatters. It varies little from pixel to
// pixel, but a walk finds it with much noise. So in each pass neighbouring pixels exchange it, as
// the clean frame's pixels do (E134):
//   l_i = L_i + (1/A_i) Σ_j c_ij (L_j - L_i),   c_ij = w_ij min(A_i/W_i, A_j/W_j)          (E103)
// A L: the pixel's glow; w: a kernel times how alike two pixels are. No light is lost, and even
// light stays even. The spread shrinks with the passes (glow_spread_of_pass), as all blur does.
//
// Three kinds are spread apart:
//   near     of the haze before the first surface, straight from small lamps: has sharp shadows
//   far      of the same haze, all other light: smooth, so it is spread far
//   surface  of all other haze, as seen on the first surface or through it
// A is the share of the light that the haze before pixel i scatters, w compares the lengths of the
// legs; for `surface` A is the brightness of the surface, w compares surfaces.
//
// Beams have a blur of their own (E99).
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "clean/plane.h"
#include "film/film.h"
#include "film/seen_points.h"
#include "render/prepare/find_seen_haze.h"
#include "render/schedule.h"

namespace dapple {

class HazeGlow {
  public:
    enum Kind { kNear, kFar, kOnSurface };
    static constexpr size_t kKinds = 3;

    // `surfaces` must outlive this object.
    HazeGlow(SeenHaze haze, const SeenPoints& surfaces, int groups);

    // Adds to a pixel's glow, cd/m². No other thread may add to this pixel meanwhile.
    void add(Kind kind, int pixel, int group, const Xyz& luminance) {
        GlowPlanes& planes = kinds_[kind][static_cast<size_t>(group)];
        for (size_t c = 0; c < 3; ++c) {
            planes[c][static_cast<size_t>(pixel)] +=
                static_cast<float>(luminance[static_cast<int>(c)]);
        }
    }

    // Spreads the glow, puts it on the film and begins anew. `taken`: 0 for pixels without walks in
    // this pass; empty: all have some.
    void put_on(Film& film, const GlowSpread& spread, std::span<const uint8_t> taken);

  private:
    using GlowPlanes = std::array<Plane, 3>;  // XYZ

    // Moves what far outshines its surroundings from `glow` to `bright`, which is empty.
    void part_bright(GlowPlanes& glow, GlowPlanes& bright) const;

    SeenHaze haze_;
    const SeenPoints& surfaces_;
    Plane brightness_;                                   // of the surfaces
    std::array<std::vector<GlowPlanes>, kKinds> kinds_;  // by group
};

}  // namespace dapple
