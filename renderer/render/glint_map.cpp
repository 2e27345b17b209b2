#include "render/glint_map.h"

#include <algorithm>

#include "base/units.h"
#include "math/warps.h"

namespace dapple {

namespace {

int discs(const Glint& glint) {
    return glint.radii[1] > 0 ? 2 : 1;
}

}  // namespace

float Glint::density(const Vec2& raster, const GlintShift& shift) const {
    const Vec2 at = lamp_per_px * (raster - centre_at(shift));
    const float distance2 = glm::dot(at, at);
    float per_area = 0;  // on the lamp's plane
    for (const float radius : radii) {
        if (radius > 0 && distance2 <= square(radius)) per_area += 1.0F / (kPiF * square(radius));
    }
    return per_area * std::abs(glm::determinant(lamp_per_px)) / static_cast<float>(discs(*this));
}

Vec2 Glint::sample(const GlintShift& shift, float u, float v, float w) const {
    const bool is_body = w * static_cast<float>(discs(*this)) >= 1.0F;
    return centre_at(shift) + px_per_lamp * (radii[is_body ? 1 : 0] * sample_disk(u, v));
}

GlintMap::GlintMap(std::vector<Glint> glints, const std::vector<std::pair<int, OfPixel>>& of_pixels)
    : glints_(std::move(glints)) {
    std::vector<std::pair<int, OfPixel>> sorted = of_pixels;
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
        return a.first < b.first;
    });
    for (const auto& [pixel, of_pixel] : sorted) {
        if (pixels_.empty() || pixels_.back() != pixel) {
            pixels_.push_back(pixel);
            first_.push_back(of_pixels_.size());
        }
        of_pixels_.push_back(of_pixel);
    }
    first_.push_back(of_pixels_.size());
}

std::span<const GlintMap::OfPixel> GlintMap::of(int pixel) const {
    const auto found = std::lower_bound(pixels_.begin(), pixels_.end(), pixel);
    if (found == pixels_.end() || *found != pixel) return {};
    const auto i = static_cast<size_t>(found - pixels_.begin());
    return {of_pixels_.data() + first_[i], first_[i + 1] - first_[i]};
}

}  // namespace dapple
