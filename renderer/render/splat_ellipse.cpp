#include "render/splat_ellipse.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr float kOnePixel = 0.75F;  // px; a splat of a smaller radius is added to one pixel
constexpr float kMostWidening = 4;  // of the short axis

}  // namespace

SplatEllipse SplatEllipse::disc(float radius_px) {
    const float inverse = 1.0F / square(radius_px);
    return {.xx = inverse, .yy = inverse, .reach = Vec2(radius_px), .longest = radius_px};
}

// If the long axis is shortened, the short axis is lengthened, within limits. The walk then stands
// for a spot of directions of nearly the same size but of another shape.
SplatEllipse SplatEllipse::spanned_by(const Footprint& footprint, float least, float most) {
    const Vec2& a = footprint.half_axes[0];
    const Vec2& b = footprint.half_axes[1];
    // S = a aᵀ + b bᵀ; its eigenvalues are the squares of the half-axes.
    const float sxx = a.x * a.x + b.x * b.x;
    const float sxy = a.x * a.y + b.x * b.y;
    const float syy = a.y * a.y + b.y * b.y;
    const float middle = 0.5F * (sxx + syy);
    const float half_difference = 0.5F * (sxx - syy);
    const float apart = std::sqrt(half_difference * half_difference + sxy * sxy);
    if (!(middle + apart < 1e12F)) return disc(most);  // the shape is not reliable
    const float long2 = std::clamp(middle + apart, square(least), square(most));
    const float cut = std::clamp((middle + apart) / long2, 1.0F, square(kMostWidening));
    const float short2 = std::clamp((middle - apart) * cut, square(least), square(most));
    // The long axis' direction as cos 2φ and sin 2φ.
    const float c2 = apart > 0 ? half_difference / apart : 1.0F;
    const float s2 = apart > 0 ? sxy / apart : 0.0F;
    const float mean = 0.5F * (1 / long2 + 1 / short2);
    const float half = 0.5F * (1 / long2 - 1 / short2);
    const float middle2 = 0.5F * (long2 + short2);
    const float differs2 = 0.5F * (long2 - short2) * c2;
    const Vec2 reach(std::sqrt(middle2 + differs2), std::sqrt(middle2 - differs2));
    return {.xx = mean + half * c2,
            .xy = half * s2,
            .yy = mean - half * c2,
            .reach = reach,
            .longest = std::sqrt(long2)};
}

std::optional<SplatEllipse> splat_ellipse(const Footprint& footprint, const SplatRadii& radii) {
    const float radius = footprint.known ? radii.least : radii.unknown;
    if (!(radius > 0 && footprint.widest_px > kOnePixel)) return std::nullopt;
    const float most = std::min(footprint.widest_px, radii.most);
    const SplatEllipse ellipse =
        footprint.known ? SplatEllipse::spanned_by(footprint, std::min(radii.least, most), most)
                        : SplatEllipse::disc(std::min(radius, footprint.widest_px));
    if (ellipse.longest < kOnePixel) return std::nullopt;
    return ellipse;
}

}  // namespace dapple
