// Haze: how much of it is along a straight way, and how it scatters light; eval, sample and pdf.
//
// Extinction is the same at all wavelengths, as for droplets of a micrometre and more, and all of
// it is scattering: the droplets absorb almost nothing. Along every way the optical depth has a
// closed form, so transmittance is exact and needs no random numbers:
//   T = exp(-τ), τ the integral of the extinction along the way (Beer and Lambert)         (E50)
#pragma once

#include <array>
#include <optional>

#include "math/vec.h"
#include "scene/haze.h"

namespace dapple {

// ---- Scattering --------------------------------------------------------------------------------

// The phase function of Henyey and Greenstein 1941, per sr.                               (E53)
// `cosine`: between the light's way before and after, 1 straight on; `g`: its mean.
float eval_phase(float g, float cosine);
// A cosine drawn from it by one uniform number; its density per sr is eval_phase().
float sample_phase(float g, float u);

// ---- The way of light through haze -----------------------------------------------------------

// A straight way through the haze, from its start on.
class HazeWay {
  public:
    float length() const { return length_; }  // m, at most kFarthest
    // Optical depth from the start to `t` m along the way.
    float depth(float t) const;
    float transmittance(float t) const { return std::exp(-depth(t)); }
    float extinction(float t) const;  // 1/m
    // Where the depth is reached; `depth` must not be above that of the whole way.
    float at_depth(float depth) const;
    // The part of the way in which there is haze; empty (first >= last) without any.
    float first() const { return first_; }
    float last() const { return last_; }

    static constexpr float kFarthest = 1e4F;  // m; light from farther away is left out

  private:
    friend class HazeMedium;

    // σ = a + b t + c t² between two places, of a cloud.
    struct Cloud {
        float from = 0, to = 0;
        float a = 0, b = 0, c = 0;
    };
    float room_depth(float t) const;

    float length_ = 0;
    float first_ = kInfinity, last_ = 0;
    // The haze of the room: σ = extinction · exp(-fall · (t - from)).
    float from_ = 0, to_ = 0;
    float extinction_ = 0;
    float fall_ = 0;  // 1/m
    std::array<Cloud, Haze::kMostBoxes> clouds_;
    size_t cloud_count_ = 0;
};

class HazeMedium {
  public:
    // `room`: what [haze] fills; nothing: all space.
    HazeMedium(const Haze& haze, const std::optional<Bounds>& room);

    float forward() const { return haze_.forward; }
    HazeWay way(const Point& origin, const Direction& direction, float length) const;
    // The same as way(…).transmittance(length), faster in even haze.
    float transmittance(const Point& origin, const Direction& direction, float length) const;

  private:
    void add_room(const Point& origin, const Direction& direction, HazeWay& way) const;
    void add_cloud(const HazeBox& box,
                   const Point& origin,
                   const Direction& direction,
                   HazeWay& way) const;

    Haze haze_;
    std::optional<Bounds> room_;
};

}  // namespace dapple
