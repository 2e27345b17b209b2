#include "clean/spread_light.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr int kRadius = 24;           // px
constexpr float kMostOfOne = 0.001F;  // of the light around, from one pixel
constexpr float kMostOfAll = 0.02F;

}  // namespace

void spread_light(const Plane& left_out, Plane& light) {
    const Plane around = box_sums(light, kRadius);
    const Plane shares = make_plane(light.width, light.height, [&](size_t i) {
        return around[i] > 0.0F ? std::min(left_out[i] / around[i], kMostOfOne) : 0.0F;
    });
    const Plane gains = box_sums(shares, kRadius);
    for_each_pixel(light, [&](size_t i) { light[i] *= 1 + std::min(gains[i], kMostOfAll); });
}

}  // namespace dapple
