// Which pixels may exchange light, and how much.
//
//   w_ij = k s_ij / (1 + (1.3 max(0, R - 1.1))²)²                                        (E133)
//   R = ⟨s (L_i - L_j)²⟩ / ⟨s (H_i - H_j)²⟩
// i, j: pixels at one offset; k: the offset's kernel; s: how alike the surfaces are that they see
// (likeness in film/seen_points.h); L: light over reflectance; H: its noise image (E132); ⟨ ⟩: sum
// over the pairs with the same offset around this one. R is near 1 if the light differs by no more
// than noise, and it is large at a pattern. H has been cleaned by the same weights as L, so R also
// holds at coarser levels, and for noise that neighbours share.
//
// The test is that of Sakai et al. 2024 in the form of Rousselle et al. 2013, patches instead of
// pixels, with the noise measured at each offset instead of derived from a variance.
#pragma once

#include <vector>

#include "clean/plane.h"
#include "film/seen_points.h"

namespace dapple {

// Levels of cleaning, from the finest. Pixels `1 << level` apart are linked.
inline constexpr int kLevels = 6;

// The links at one offset: `weights[i]` is that of pixel i and of the pixel (dx, dy) from it, and 0
// where that pixel is outside the frame.
struct Links {
    int dx = 0, dy = 0;
    Plane weights;
};

// Light over reflectance, and its noise over reflectance. More than one image: the sums of R are
// over all of them.
struct GuideImages {
    std::vector<Plane> light, noise;
};

// Four offsets; the links to the other four of a pixel's eight neighbours are those of these
// neighbours. Pixels in `alone` (1) have no links.
std::vector<Links> make_links(const SeenPoints& seen, const std::vector<char>& alone, int level);

// Weakens the links where the light differs by more than noise.
void test_links(const GuideImages& guide, int level, std::vector<Links>& links);

}  // namespace dapple
