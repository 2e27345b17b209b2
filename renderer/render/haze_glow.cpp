#include "render/haze_glow.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "render/spread_light.h"

namespace dapple {

namespace {

constexpr float kAlikeLength = 0.1F;  // relative difference from which legs exchange nothing
constexpr float kLeastBrightness = 0.02F;
// Glow of more than this times the mean around it is spread farther, ours.
constexpr float kBright = 12;
constexpr int kAroundPerWidth = 16;  // the radius of "around" is this part of the frame's width
constexpr float kFarther = 4;

Plane brightness_of(const SeenPoints& seen) {
    return make_plane(seen.width, seen.height, [&](size_t i) {
        const Rgb& colour = seen.pixels[i].albedo;
        return std::max(kLeastBrightness,
                        0.2126F * colour.r + 0.7152F * colour.g + 0.0722F * colour.b);
    });
}

float like_legs(float a, float b) {
    if (!(a > 0 && b > 0)) return 0;
    return std::max(0.0F, 1.0F - std::abs(a - b) / (kAlikeLength * std::min(a, b)));
}

}  // namespace

HazeGlow::HazeGlow(SeenHaze haze, const SeenPoints& surfaces, int groups)
    : haze_(std::move(haze)), surfaces_(surfaces), brightness_(brightness_of(surfaces)) {
    const Plane dark(surfaces.width, surfaces.height);
    for (auto& kind : kinds_) kind.assign(static_cast<size_t>(groups), {dark, dark, dark});
}

void HazeGlow::part_bright(GlowPlanes& glow, GlowPlanes& bright) const {
    const int radius = std::max(1, haze_.share.width / kAroundPerWidth);
    const Plane around = box_sums(glow[1], radius);
    const Plane shares = box_sums(haze_.share, radius);
    for (size_t i = 0; i < around.size(); ++i) {
        const float most = kBright * around[i] / shares[i] * haze_.share[i];
        if (!(glow[1][i] > most)) continue;
        const float kept = most / glow[1][i];
        for (size_t c = 0; c < 3; ++c) {
            bright[c][i] = (1.0F - kept) * glow[c][i];
            glow[c][i] *= kept;
        }
    }
}

void HazeGlow::put_on(Film& film, const GlowSpread& spread, std::span<const uint8_t> taken) {
    const auto both_taken = [&](size_t i, size_t j) {
        return taken.empty() || (taken[i] != 0 && taken[j] != 0);
    };
    const auto legs = [&](size_t i, size_t j) {
        return both_taken(i, j) ? like_legs(haze_.length[i], haze_.length[j]) : 0.0F;
    };
    const auto on_surface = [&](size_t i, size_t j) {
        return both_taken(i, j) ? likeness(surfaces_.pixels[i], surfaces_.pixels[j]) : 0.0F;
    };
    const LightSpread near(haze_.share, spread.near, legs);
    const LightSpread far(haze_.share, spread.far, legs);
    const LightSpread farther(haze_.share, kFarther * spread.far, legs);
    const LightSpread surface(brightness_, spread.near, on_surface);
    const Plane dark(haze_.share.width, haze_.share.height);
    for (size_t g = 0; g < kinds_[kFar].size(); ++g) {
        GlowPlanes sums = {dark, dark, dark};
        GlowPlanes bright = sums;
        part_bright(kinds_[kFar][g], bright);
        for (size_t c = 0; c < 3; ++c) {
            near.move(kinds_[kNear][g][c], sums[c]);
            far.move(kinds_[kFar][g][c], sums[c]);
            farther.move(bright[c], sums[c]);
            surface.move(kinds_[kOnSurface][g][c], sums[c]);
        }
        for_each_row(dark.height, [&](int y) {
            for (int x = 0; x < dark.width; ++x) {
                const auto i = static_cast<size_t>(y * dark.width + x);
                film.add_alone(x, y, static_cast<int>(g), Xyz(sums[0][i], sums[1][i], sums[2][i]));
            }
        });
    }
}

}  // namespace dapple
