// The film's light as light on surfaces: what may be cleaned, divided among the surfaces of rims
// and divided by reflectance. And back.
#pragma once

#include <array>

#include "clean/colour_planes.h"
#include "clean/rims.h"
#include "clean/soft_lamps.h"
#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

class SurfaceLight {
  public:
    SurfaceLight(const Film& film, const SeenPoints& seen, double white_luminance);

    const Plane& luminance() const { return luminance_; }  // of the film, cd/m²
    const Plane& noise() const { return noise_; }          // its noise image
    // The share of each pixel's light that is left in it and shown (sure_light.h).
    const Plane& shown() const { return shown_; }
    // Luminance that is neither cleaned nor shown.
    Plane left_out() const;
    const std::vector<char>& alone() const { return rims_.alone(); }

    // Reflectance times area, of a channel (0 to 2) or of luminance.
    static constexpr size_t kLuminance = 3;
    static std::array<float, 4> reflectances(const SeenPoint& seen);
    const Plane& amounts(size_t channel) const { return amounts_[channel]; }

    Plane to_surfaces(const Plane& light, size_t channel) const;
    // `light`: as it was on the film. What was held back of it is added again, if it is sure.
    Plane to_pixels(const Plane& on_surfaces, size_t channel, const Plane& light) const;
    // The luminance by pixel of light that hardly any pass has found and that was exchanged with
    // no other pixel. `own_weights`: what is left of a surface's own light in its cleaned light.
    Plane unsure_luminance(const Plane& own_weights) const;

  private:
    Plane released(const Plane& light) const;

    Plane luminance_;
    Plane noise_;
    Plane shown_;
    Plane held_;    // share of each pixel's light left in it
    Plane unsure_;  // luminance that may be cleaned although hardly any pass has found it, cd/m²
    Rims rims_;
    SoftLamps lamps_;
    std::array<Plane, 4> amounts_;
};

}  // namespace dapple
