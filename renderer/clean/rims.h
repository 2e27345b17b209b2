// Pixels at the rim of a surface show parts of several surfaces. Before cleaning, their light is
// divided among the surfaces; afterwards it is put together again.
//
//   divided: X_k = Σ_i F_i S_ik g_k / Σ_l S_il g_l,   a_k = Σ_i S_ik
//   joined:  F_i = Σ_k S_ik X_k / a_k                                                     (E140)
// S_ik: share of pixel i that shows the surface at the centre of pixel k (SharedPixel); g: a first
// estimate of that surface's light, the mean of the pixels around k that see it and are not at a
// rim. Both steps keep Σ F. A pixel whose light is more than three standard errors from Σ_k S_ik
// g_k is left alone.
#pragma once

#include <vector>

#include "clean/plane.h"
#include "film/seen_points.h"

namespace dapple {

class Rims {
  public:
    // `light`, `noise`: of the film.
    Rims(const SeenPoints& seen, const Plane& light, const Plane& noise);

    const Plane& areas() const { return areas_; }              // a_k, px
    const std::vector<char>& alone() const { return alone_; }  // 1: left alone, or a soft lamp

    // Light by pixel to light by surface, and light per area of a surface to light by pixel.
    Plane divided(const Plane& light) const;
    Plane joined(const Plane& light_per_area) const;

  private:
    struct Part {
        int32_t pixel = 0;      // i
        int32_t surface = 0;    // k
        float area = 0;         // S_ik
        float light_share = 0;  // S_ik g_k / Σ_l S_il g_l
    };
    std::vector<Part> parts_of(const SharedPixel& shared,
                               const SeenPoints& seen,
                               const std::vector<char>& at_rim,
                               const Plane& light) const;

    std::vector<Part> parts_;  // of the pixels at rims
    std::vector<char> alone_;
    Plane areas_;
};

}  // namespace dapple
