#include "clean/rims.h"

#include <algorithm>

#include "clean/link_pixels.h"

namespace dapple {

namespace {

constexpr int kReach = 2;  // px

// Mean light of the pixels around `k` that are not at a rim and see the same surface.
float first_estimate(const SeenPoints& seen, const std::vector<char>& at_rim, const Plane& light, int k) {
    const int x = k % seen.width;
    const int y = k / seen.width;
    float sum = 0;
    float weights = 0;
    for (int v = std::max(0, y - kReach); v <= std::min(seen.height - 1, y + kReach); ++v) {
        for (int u = std::max(0, x - kReach); u <= std::min(seen.width - 1, x + kReach); ++u) {
            const auto j = static_cast<size_t>(v * seen.width + u);
            if (at_rim[j] != 0) continue;
            const float like = likeness(seen.pixels[static_cast<size_t>(k)], seen.pixels[j]);
            sum += like * light[j];
            weights += like;
        }
    }
    return weights > 0 ? sum / weights : light[static_cast<size_t>(k)];
}

}  // namespace

Rims::Rims(const SeenPoints& seen, const Plane& light, const Plane& noise)
    : alone_(seen.pixels.size(), 0), areas_(seen.width, seen.height, 1.0F) {
    Plane squares(seen.width, seen.height), variances(seen.width, seen.height);
    for (size_t i = 0; i < squares.values.size(); ++i) squares[i] = noise[i] * noise[i];
    make_box_sums(squares, 1, variances);
    std::vector<char> at_rim(seen.pixels.size(), 0);
    for (const SharedPixel& s : seen.shared) {
        at_rim[static_cast<size_t>(s.pixel)] = 1;
    }
    for (const SharedPixel& s : seen.shared) areas_[static_cast<size_t>(s.pixel)] = 0;
    for (const SharedPixel& s : seen.shared) {
        const size_t first = parts_.size();
        float sum = 0;
        for (int k = 0; k < 9; ++k) {
            const float share = s.shares[static_cast<size_t>(k)];
            if (!(share > 0)) continue;
            const int element = s.pixel + (k / 3 - 1) * seen.width + k % 3 - 1;
            const float g = std::max(1e-12F, first_estimate(seen, at_rim, light, element));
            parts_.push_back({s.pixel, element, share, share * g});
            areas_[static_cast<size_t>(element)] += share;
            sum += share * g;
        }
        const auto i = static_cast<size_t>(s.pixel);
        const float off = light[i] - sum;
        if (off * off > tuning.extra * variances[i] / 9) {
            for (size_t p = first; p < parts_.size(); ++p) areas_[static_cast<size_t>(parts_[p].element)] -= parts_[p].share;
            parts_.resize(first);
            areas_[i] += 1;
            alone_[i] = 1;
            parts_.push_back({s.pixel, s.pixel, 1, 1});
            pixels_.push_back(s.pixel);
            continue;
        }
        pixels_.push_back(s.pixel);
        for (size_t p = first; p < parts_.size(); ++p) parts_[p].of_light /= sum;
    }
}

Plane Rims::divided(const Plane& light) const {
    Plane result = light;
    for (const int32_t i : pixels_) result[static_cast<size_t>(i)] = 0;
    for (const Part& p : parts_) {
        result[static_cast<size_t>(p.element)] += p.of_light * light[static_cast<size_t>(p.pixel)];
    }
    for (size_t k = 0; k < result.values.size(); ++k) result[k] /= areas_[k];
    return result;
}

Plane Rims::joined(const Plane& light) const {
    Plane result = light;
    for (const int32_t i : pixels_) result[static_cast<size_t>(i)] = 0;
    for (const Part& p : parts_) {
        result[static_cast<size_t>(p.pixel)] += p.share * light[static_cast<size_t>(p.element)];
    }
    return result;
}

}  // namespace dapple
