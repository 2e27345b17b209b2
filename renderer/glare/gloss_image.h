// The blur that a nearly smooth gloss shows of a lamp: a damp floor, varnished wood, brushed metal.
//
//   E = ∫ L dω,  L = T f(ωo, ωi) cosθi I / r²                                               (E129)
// over the directions ω at the lens in which the gloss is bright: T what passes between the gloss
// and the lens, f the lobe of the gloss alone, I the lamp's intensity towards the gloss and r its
// distance. The lamp is taken as a point; its size hardly widens the blur.
#pragma once

#include <optional>

#include "glare/smooth_way.h"

namespace dapple {

struct GlossImage {
    Spectrum lux{0.0F};  // at the lens, facing the blur, at the eight bands
    Direction middle{0, 0, 1};
    double radius = 0;  // rad, of an even disc with the same spread
};

// `mirrored`: the direction in which the lens would see the lamp if the gloss were smooth. Nothing
// if no light comes from there.
std::optional<GlossImage> see_in_gloss(const Setup& setup,
                                       const SmoothWays& ways,
                                       int fixture,
                                       FirstSmooth first,
                                       const Direction& mirrored);

// What the lamp sends along the ray from the lens, cd.
double intensity_towards(const Setup& setup, int fixture, const Direction& away_from_lens);

}  // namespace dapple
