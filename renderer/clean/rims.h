// Pixels at the rim of a surface show two surfaces or more.
//
// The light of such a pixel is divided among its surfaces before cleaning, and put together again
// after it. S_ik: share of pixel i that shows the surface seen at the centre of pixel k.
//   before   X_k = Σ_i F_i S_ik g_k / Σ_l S_il g_l,   a_k = Σ_i S_ik
//   after    F_i = Σ_k S_ik X_k / a_k
// g: a first estimate of each surface's light there. The sum of light stays.
#pragma once

#include "clean/plane.h"
#include "film/seen_points.h"

namespace dapple {

class Rims {
  public:
    // The film's light and its noise image.
    Rims(const SeenPoints& seen, const Plane& light, const Plane& noise);

    // Pixels whose light the shares do not explain, beyond noise. They are left alone.
    const std::vector<char>& alone() const { return alone_; }
    const Plane& areas() const { return areas_; }
    // Light by pixel to light by surface, over its area; and back.
    Plane divided(const Plane& light) const;
    Plane joined(const Plane& light) const;

  private:
    struct Part {
        int32_t pixel;     // i
        int32_t element;   // k
        float share;       // S_ik
        float of_light;    // share of the pixel's light
    };
    std::vector<Part> parts_;
    std::vector<int32_t> pixels_;
    std::vector<char> alone_;
    Plane areas_;
};

}  // namespace dapple
