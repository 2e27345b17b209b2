#include "clean/hold_back.h"

#include <algorithm>
#include <cmath>

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
constexpr int kLikeRadius = 8;        // px
constexpr float kMostOfLike = 0.02F;  // of the light of like surfaces around it

// Times the mean of like surfaces around it; the more, the fewer passes, because noise is no speck.
float most_over_like(int passes) {
    return 2.5F + 5.0F / static_cast<float>(passes);
}

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
    if (film.passes() < 2) return;
    const Plane specks = make_plane(light.width, light.height, [&](size_t i) {
        const double steady = film.without_brightest_pass(static_cast<int>(i)).mean;
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

// What a pixel may give to the like surfaces around it, as light over reflectance. `light`: theirs.
float most_for_like_pixels(const SeenPoints& seen,
                           const Plane& light,
                           size_t pixel,
                           float most_over_mean) {
    const int x = static_cast<int>(pixel) % light.width;
    const int y = static_cast<int>(pixel) / light.width;
    const int last_x = std::min(light.width - 1, x + kLikeRadius);
    const int last_y = std::min(light.height - 1, y + kLikeRadius);
    const SeenPoint& own = seen.pixels[pixel];
    float sum = 0;
    float count = 0;
    for (int v = std::max(0, y - kLikeRadius); v <= last_y; ++v) {
        for (int u = std::max(0, x - kLikeRadius); u <= last_x; ++u) {
            const auto j = static_cast<size_t>(v * light.width + u);
            if (j == pixel) continue;
            const float apart = std::hypot(static_cast<float>(u - x), static_cast<float>(v - y));
            const float like = likeness(own, seen.pixels[j], apart);
            sum += like * light[j];
            count += like;
        }
    }
    return count > 0 ? sum * std::max(kMostOfLike, most_over_mean / count) : 0;
}

// Only light that the passes agree on counts, so that a row of specks does not allow itself.
void limit_to_like_pixels(const SeenPoints& seen,
                          const LightToHold& film,
                          float most_over_mean,
                          Plane& limited) {
    const Plane& reflectance = film.reflectance;
    const Plane steady = make_plane(limited.width, limited.height, [&](size_t i) {
        return std::min(limited[i], film.sure[i] * film.light[i]) / reflectance[i];
    });
    const Plane sums = box_sums(steady, kLikeRadius);
    constexpr float kClear = kMostOfLike / 4;  // of all light around: so little is not looked into
    for_each_row(limited.height, [&](int y) {
        const auto first = static_cast<size_t>(y * limited.width);
        for (size_t i = first; i < first + static_cast<size_t>(limited.width); ++i) {
            if (limited[i] < kClear * (sums[i] - steady[i]) * reflectance[i]) continue;
            const float most = most_for_like_pixels(seen, steady, i, most_over_mean);
            limited[i] = std::min(limited[i], most * reflectance[i]);
        }
    });
}

}  // namespace

Plane hold_back(const Film& film,
                const SeenPoints& seen,
                const LightToHold& all,
                double white_luminance) {
    const Plane& light = all.light;
    Plane limited = limit_to_surroundings(light, white_luminance);
    limit_blobs(limited);
    release_specks(film, light, limited);
    if (film.passes() > 1) {
        limit_to_like_pixels(seen, all, most_over_like(film.passes()), limited);
    }
    // A soft lamp's light is known to be there, and is even over its disc, however few walks find
    // it.
    return make_plane(light.width, light.height, [&](size_t i) {
        if (is_soft_lamp(seen.pixels[i])) return 0.0F;
        return light[i] > 0 ? std::max(0.0F, 1 - limited[i] / light[i]) : 0.0F;
    });
}

}  // namespace dapple
