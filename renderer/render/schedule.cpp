#include "render/schedule.h"

#include <algorithm>
#include <cmath>

#include "render/splat_layout.h"

namespace dapple {

namespace {

constexpr uint32_t kFirstPassDivisor = 3;  // the first pass has 1/3 of the walks, rounded up

}  // namespace

int light_walks_in_pass(int usual, uint32_t pass) {
    constexpr int kDivisor = kFirstPassDivisor;
    return pass == 0 ? (usual + kDivisor - 1) / kDivisor : usual;
}

float usual_light_walks_per(uint32_t pass) {
    return pass == 0 ? static_cast<float>(kFirstPassDivisor) : 1.0F;
}

WalkNumbers numbers_in_pass(uint32_t usual, uint32_t pass) {
    const uint32_t in_first = (usual + kFirstPassDivisor - 1) / kFirstPassDivisor;
    if (pass == 0) return {0, in_first};
    return {in_first + (pass - 1) * usual, usual};
}

SplatRadii splat_radii_of_pass(double first_px, uint32_t pass) {
    if (!(first_px > 0)) return {};
    const double shrink = std::pow(1.0 + pass, -0.25);
    const double most = 6 * first_px * std::pow(1.0 + pass, -0.6);
    SplatRadii radii;
    // Light that was scattered on its way makes soft patterns, so its disc can be wide. With this
    // exponent the variance of the mean falls as passes^-2/3 (Knaus and Zwicker 2011, from memory);
    // with -1/2 it would not fall at all until the disc is as small as a pixel.
    const double unknown = 2.4 * first_px * std::pow(1.0 + pass, -1.0 / 6.0);
    constexpr double kMostRadius = SplatLayout::kMostRadius;
    radii.unknown = static_cast<float>(std::min(unknown, kMostRadius));
    radii.least = static_cast<float>(std::max(0.55, 0.5 * first_px * shrink));
    radii.most = static_cast<float>(std::clamp(most, 1.5, kMostRadius));
    return radii;
}

float footprint_overlap(double first_px, uint32_t pass) {
    return first_px > 0 ? static_cast<float>(8.0 * std::pow(1.0 + pass, -0.7)) : 0.0F;
}

float dispersion_limit(double first_px, uint32_t pass) {
    return first_px > 0 ? static_cast<float>(8.0 * std::pow(1.0 + pass, -0.25)) : 0.0F;
}

float merge_radius_factor(uint32_t pass) {
    return static_cast<float>(std::pow(1.0 + pass, -1.0 / 6.0));
}

GlowSpread glow_spread_of_pass(double first_px, int width, uint32_t pass) {
    const double shrunk = first_px * std::pow(1.0 + pass, -1.0 / 6.0);
    // The far glow is smooth in the room, so its spread is a part of the frame.
    const double far = std::clamp(width / 160.0, 1.5, 6.0);
    return {.near = static_cast<float>(0.6 * shrunk), .far = static_cast<float>(far * shrunk)};
}

float beam_radius_factor(uint32_t pass) {
    return static_cast<float>(std::pow(1.0 + pass, -0.2));
}

}  // namespace dapple
