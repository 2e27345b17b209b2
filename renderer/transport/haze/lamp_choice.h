// Which lamps a leg asks, and from where on the leg.
#pragma once

#include <array>
#include <cmath>
#include <vector>

#include "transport/haze/haze_leg.h"

namespace dapple {

// The part of a leg that a lamp may light, in parts of equal angle as seen from the lamp.
struct LampOnLeg {
    static constexpr size_t kParts = 12;

    size_t fixture = 0;
    float from = 0, to = 0;  // m along the leg
    float nearest = 0;       // where the leg passes the lamp's middle, m along the leg
    float off = 0;           // its distance from the middle there, m, and at least half a lamp
    float angle = 0;         // of the part as seen from the lamp, rad
    // A guess at the light that the haze of each part scatters, summed from the first part on.
    std::array<float, kParts> guess{};
    float probability = 0;  // that the lamp is asked

    float light() const { return guess.back(); }
    // The angle from where the leg is nearest to its start, rad.
    float low() const { return std::atan((from - nearest) / off); }
    float place_at(float share) const { return nearest + off * std::tan(low() + share * angle); }
    float share_at(float t) const { return (std::atan((t - nearest) / off) - low()) / angle; }
};

// Sets `lamps` to the small ones that may light the leg, with probabilities whose sum is at most
// `most`.
void choose_lamps(const Stage& stage,
                  const HazeLeg& leg,
                  float most,
                  std::vector<LampOnLeg>& lamps);

struct PlaceOnLeg {
    float t = 0;    // m along the leg
    float pdf = 0;  // per m
};

// Draws a place, with the probability q = 9/10 from the angle as seen from the lamp (Kulla and
// Fajardo 2012), in the parts by their guess; else from where the leg's light is lost:
//   P(t) = q G_k/G h/(l (h² + (t - t0)²)) + (1 - q) σ(t) T(t)/(T(from) - T(to))             (E97)
// h: `off`; t0: `nearest`; l: angle of a part; G_k: guess of the part that holds t, G of all. The
// density is that of both together, which is the balance heuristic for one sample.
PlaceOnLeg draw_place(const HazeLeg& leg, const LampOnLeg& lamp, float u);

}  // namespace dapple
