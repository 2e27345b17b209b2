#include "clean/hold_back.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr double kMostOverWhite = 2;
constexpr int kRadius = 12;           // px
constexpr float kMostAdded = 0.1F;    // by one pixel to the light around it
constexpr int kRounds = 4;            // bright pixels raise the mean that limits them
constexpr float kOrdinary = 16;       // times the mean around a pixel
constexpr float kMostBlobs = 0.2F;    // of the ordinary light around them
constexpr int kSpeckRadius = 24;      // px, how far cleaning spreads light
constexpr float kMostSpecks = 0.05F;  // of the light around them

// The light that may be cleaned.
Plane limit_to_surroundings(const Plane& light, double white_luminance) {
    const auto most = static_cast<float>(kMostOverWhite * white_luminance);
    Plane limited = light;
    for (float& v : limited.values) v = std::clamp(v, 0.0F, most);
    const Plane counts = box_sums(Plane(light.width, light.height, 1), kRadius);
    for (int round = 0; round < kRounds; ++round) {
        const Plane sums = box_sums(limited, kRadius);
        limited = make_plane(light.width, light.height, [&](size_t i) {
            const float others = (sums[i] - limited[i]) / std::max(1.0F, counts[i] - 1);
            return std::min(limited[i], std::max(0.0F, others) * (1 + kMostAdded * counts[i]));
        });
    }
    return limited;
}

// A blob of many bright pixels on a dark surface, such as one light walk's splat, would become a
// glow. What is far above the mean around it is limited as a whole.
void limit_blobs(Plane& limited) {
    Plane ordinary = limited;
    const Plane counts = box_sums(Plane(limited.width, limited.height, 1), kSpeckRadius);
    for (int round = 0; round < kRounds; ++round) {
        const Plane sums = box_sums(ordinary, kSpeckRadius);
        for (size_t i = 0; i < limited.size(); ++i) {
            ordinary[i] = std::min(ordinary[i], kOrdinary * sums[i] / counts[i]);
        }
    }
    const Plane blobs = make_plane(
        limited.width, limited.height, [&](size_t i) { return limited[i] - ordinary[i]; });
    const Plane blobs_around = box_sums(blobs, kSpeckRadius);
    const Plane ordinary_around = box_sums(ordinary, kSpeckRadius);
    for (size_t i = 0; i < limited.size(); ++i) {
        if (!(blobs[i] > 0)) continue;
        const float share = kMostBlobs * ordinary_around[i] / blobs_around[i];
        limited[i] = ordinary[i] + std::min(1.0F, share) * blobs[i];
    }
}

// Adds to the limited light the specks that can be spread unseen.
void release_specks(const Film& film, const Plane& light, Plane& limited) {
    const double other_passes = film.passes() - 1;
    if (other_passes < 1) return;
    const QuantaPlane& brightest = film.state().brightest_pass;
    const Plane specks = make_plane(light.width, light.height, [&](size_t i) {
        const double all = film.luminance_sum(static_cast<int>(i));
        const double steady = (all - film.in_cd_m2(brightest[i])) / other_passes;
        return std::clamp(light[i] - static_cast<float>(steady), 0.0F, light[i] - limited[i]);
    });
    const Plane specks_around = box_sums(specks, kSpeckRadius);
    const Plane light_around = box_sums(limited, kSpeckRadius);
    for (size_t i = 0; i < limited.size(); ++i) {
        if (!(specks[i] > 0)) continue;
        const float share = kMostSpecks * light_around[i] / specks_around[i];
        limited[i] += std::min(1.0F, share) * specks[i];
    }
}

}  // namespace

Plane hold_back(const Film& film, const Plane& light, double white_luminance) {
    Plane limited = limit_to_surroundings(light, white_luminance);
    limit_blobs(limited);
    release_specks(film, light, limited);
    return make_plane(light.width, light.height, [&](size_t i) {
        return light[i] > 0 ? std::max(0.0F, 1 - limited[i] / light[i]) : 0.0F;
    });
}

}  // namespace dapple
