// The glow of haze: light that the haze between the lens and the first surface scatters, without
// that of beams. It varies little from pixel to pixel, but a walk finds it with much noise. So in
// each pass neighbouring pixels exchange it, as the clean frame's pixels do (E127):
//   l_i = L_i + (1/A_i) Σ_j c_ij (L_j - L_i),   c_ij = w_ij min(A_i/W_i, A_j/W_j)          (E340)
// A: share of the light that the haze before pixel i scatters; A L: the pixel's glow; w: how alike
// the lengths of the two legs are, times a kernel. No light is lost, and even light stays even. The
// spread shrinks with the passes (glow_spread_of_pass), as all blur does.
//
// Two kinds are spread apart: light that comes straight from small lamps has sharp shadows, and all
// other light is smooth.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "clean/plane.h"
#include "film/film.h"
#include "render/prepare/find_seen_haze.h"
#include "render/schedule.h"

namespace dapple {

class HazeGlow {
  public:
    enum Kind { kNear, kFar };

    HazeGlow(SeenHaze seen, int groups);

    // Adds to a pixel's glow, cd/m². No other thread may add to this pixel meanwhile.
    void add(Kind kind, int pixel, int group, const Xyz& luminance) {
        std::array<Plane, 3>& planes = kinds_[kind][static_cast<size_t>(group)];
        for (size_t c = 0; c < 3; ++c) {
            planes[c][static_cast<size_t>(pixel)] +=
                static_cast<float>(luminance[static_cast<int>(c)]);
        }
    }

    // Spreads the glow, puts it on the film and begins anew. `taken`: 0 for pixels without walks in
    // this pass; empty: all have some.
    void put_on(Film& film, const GlowSpread& spread, std::span<const uint8_t> taken);

  private:
    SeenHaze seen_;
    std::array<std::vector<std::array<Plane, 3>>, 2> kinds_;  // [kind][group][channel]
};

// The strengths of the levels of a spread, from the finest: 1 is the whole kernel 1 2 1 of pixels
// that are 2^level apart. The variances in each direction, 2^(2 level)/2 each at full strength,
// have the sum `variance`, px².
std::vector<float> spread_levels(float variance);

}  // namespace dapple
