// Glints: images of lamps in smooth glass, mirrors and smooth coats that are much smaller than a
// pixel.
//
// A pixel's walks hardly ever meet such an image, and where one does, the pixel is a speck. So a
// search before the first pass finds the images (render/prepare/find_glints.h), and more walks
// start there. Near a glint, the place where the lens sees through the smooth surfaces moves over
// the lamp's plane with the raster position as M (x - x_g), M in m/px. A glint walk starts within
// the radius r of the lamp there, where its density is
//   q(x) = |det M| / (π r²),  |M (x - x_g)| <= r                                      (E84)
// per px². Of a pixel with n walks and n_g walks of each of its glints, every walk counts
//   1 / (n + Σ n_g q_g(x))                                                             (E85)
// (balance heuristic of Veach 1995) instead of 1/n, whatever it finds. So the sum is exact even if
// a glint is not where it was expected. x_g depends on the wavelength, because glass disperses, and
// on the point of the aperture.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "math/vec.h"

namespace dapple {

// What moves a glint in the frame.
struct GlintShift {
    float c = 0;       // 1/λ², µm⁻², of the walk's own wavelength
    Vec2 aperture{0};  // on the unit disk
};

class Glint {
  public:
    // Radii on the lamp's plane, m: of its bright face and of its body, which it lights (0: none).
    // A glint walk takes either with the probability 1/2.
    std::array<float, 2> radii{};
    glm::mat2 lamp_per_px{1};  // M
    glm::mat2 px_per_lamp{1};
    Vec2 centre{0};  // x_g at wavelength coordinate `c` and the middle of the aperture, px
    float c = 0;
    Vec2 per_c{0};  // the first and the second coefficient of the move with the coordinate
    Vec2 per_c2{0};
    glm::mat2 per_aperture{0};
    float strength = 0;  // luminance of its light as the lens sees it, over white
    float worth = 0;     // its square times the glint's area: what even walks would leave as noise

    Vec2 centre_at(const GlintShift& shift) const {
        const float d = shift.c - c;
        return centre + d * (per_c + d * per_c2) + per_aperture * shift.aperture;
    }
    // q, per px².
    float density(const Vec2& raster, const GlintShift& shift) const;
    // From three uniform numbers.
    Vec2 sample(const GlintShift& shift, float u, float v, float w) const;
};

// The glints of all pixels.
class GlintMap {
  public:
    // One glint of a pixel.
    struct OfPixel {
        int glint = 0;
        uint32_t walks = 0;  // per pass; those that start outside the pixel are left out
    };

    GlintMap() = default;
    GlintMap(std::vector<Glint> glints, const std::vector<std::pair<int, OfPixel>>& of_pixels);

    const Glint& glint(const OfPixel& of_pixel) const {
        return glints_[static_cast<size_t>(of_pixel.glint)];
    }
    std::span<const OfPixel> of(int pixel) const;
    bool empty() const { return glints_.empty(); }
    size_t size() const { return glints_.size(); }

  private:
    std::vector<Glint> glints_;
    std::vector<OfPixel> of_pixels_;  // those of a pixel follow each other
    std::vector<int> pixels_;         // that have glints, ascending
    std::vector<size_t> first_;       // of each of them in `of_pixels_`, and the end
};

}  // namespace dapple
