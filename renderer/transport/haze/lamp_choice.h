// Which lamps a leg asks, and from where on the leg.
#pragma once

#include <vector>

#include "transport/haze/haze_leg.h"

namespace dapple {

// The part of a leg that a lamp may light.
struct LampOnLeg {
    size_t fixture = 0;
    float from = 0, to = 0;    // m along the leg
    float nearest = 0;         // where the leg passes the lamp's middle, m along the leg
    float off = 0;             // its distance from the middle there, m, and at least half a lamp
    float low = 0, angle = 0;  // rad: the leg's start and length as seen from the lamp
    float light = 0;           // a guess at what the haze scatters, cd/m²
    float probability = 0;     // that the lamp is asked

    float middle(float share) const { return nearest + off * std::tan(low + share * angle); }
};

// Sets `lamps` to those that may light the leg, with probabilities whose sum is at most `most`.
void choose_lamps(const Stage& stage,
                  const HazeLeg& leg,
                  float most,
                  std::vector<LampOnLeg>& lamps);

struct PlaceOnLeg {
    float t = 0;    // m along the leg
    float pdf = 0;  // per m
};

// Draws a place from equal angles (Kulla and Fajardo 2012) with probability 3/4, else from where
// the leg's light is lost:
//   p(t) = 3/4 h / ((b - a) (h² + (t - t0)²)) + 1/4 σ(t) T(t) / (T(from) - T(to))          (E386)
// h: `off`; t0: `nearest`; b - a: `angle`. The density is that of both together, which is the
// balance heuristic for one sample.
PlaceOnLeg draw_place(const HazeLeg& leg, const LampOnLeg& lamp, float u);

}  // namespace dapple
