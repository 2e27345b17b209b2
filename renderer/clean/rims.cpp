#include "clean/rims.h"

#include <algorithm>

#include "base/parallel.h"
#include "math/vec.h"

namespace dapple {

namespace {

constexpr size_t kRimsPerLook = 1024;
constexpr int kReach = 2;  // px, of the first estimate
constexpr float kMostErrors = 3;
constexpr float kTiny = 1e-12F;  // so that light is divided by area where all estimates are 0

// g_k.
float estimate_light(const SeenPoints& seen,
                     const std::vector<char>& at_rim,
                     const Plane& light,
                     int k) {
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
    return std::max(kTiny, weights > 0 ? sum / weights : light[static_cast<size_t>(k)]);
}

// Variance of the noise, over 3 × 3 pixels.
Plane local_variance(const Plane& noise) {
    const Plane squares =
        make_plane(noise.width, noise.height, [&](size_t i) { return square(noise[i]); });
    Plane variances = box_sums(squares, 1);
    for (float& v : variances.values) v /= 9;
    return variances;
}

}  // namespace

// `light_share` is S_ik g_k, not yet divided by its sum.
std::vector<Rims::Part> Rims::parts_of(const SharedPixel& shared,
                                       const SeenPoints& seen,
                                       const std::vector<char>& at_rim,
                                       const Plane& light) const {
    std::vector<Part> parts;
    for (int n = 0; n < 9; ++n) {
        const float area = shared.shares[static_cast<size_t>(n)];
        if (!(area > 0)) continue;
        const int32_t k = shared.pixel + (n / 3 - 1) * seen.width + n % 3 - 1;
        parts.push_back({shared.pixel, k, area, area * estimate_light(seen, at_rim, light, k)});
    }
    return parts;
}

Rims::Rims(const SeenPoints& seen, const Plane& light, const Plane& noise)
    : alone_(seen.pixels.size(), 0), areas_(seen.width, seen.height, 1.0F) {
    std::vector<char> at_rim(seen.pixels.size(), 0);
    for (const SharedPixel& shared : seen.shared) {
        at_rim[static_cast<size_t>(shared.pixel)] = 1;
        areas_[static_cast<size_t>(shared.pixel)] = 0;
    }
    for (size_t i = 0; i < alone_.size(); ++i) alone_[i] = is_soft_lamp(seen.pixels[i]) ? 1 : 0;
    const Plane variances = local_variance(noise);
    size_t done = 0;
    for (const SharedPixel& shared : seen.shared) {
        if (done++ % kRimsPerLook == 0) stop_if_asked();
        const auto i = static_cast<size_t>(shared.pixel);
        std::vector<Part> parts = parts_of(shared, seen, at_rim, light);
        float expected = 0;
        for (const Part& p : parts) expected += p.light_share;
        if (square(light[i] - expected) > square(kMostErrors) * variances[i]) {
            alone_[i] = 1;
            parts = {{shared.pixel, shared.pixel, 1, expected}};
        }
        for (Part& p : parts) {
            areas_[static_cast<size_t>(p.surface)] += p.area;
            p.light_share /= expected;
            parts_.push_back(p);
        }
    }
}

Plane Rims::divided(const Plane& light) const {
    Plane result = light;
    stop_if_asked();
    for (const Part& p : parts_) result[static_cast<size_t>(p.pixel)] = 0;
    stop_if_asked();
    for (const Part& p : parts_) {
        result[static_cast<size_t>(p.surface)] +=
            p.light_share * light[static_cast<size_t>(p.pixel)];
    }
    return result;
}

Plane Rims::joined(const Plane& light_per_area) const {
    Plane result = light_per_area;
    stop_if_asked();
    for (const Part& p : parts_) result[static_cast<size_t>(p.pixel)] = 0;
    stop_if_asked();
    for (const Part& p : parts_) {
        result[static_cast<size_t>(p.pixel)] +=
            p.area * light_per_area[static_cast<size_t>(p.surface)];
    }
    return result;
}

}  // namespace dapple
