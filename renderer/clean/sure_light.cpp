#include "clean/sure_light.h"

#include <algorithm>
#include <limits>

#include "math/vec.h"

namespace dapple {

namespace {

constexpr double kMostOverOthers = 3;  // of the brightest pass
constexpr double kFade = 2;
constexpr float kMostLone = 2;  // of a bright pixel amid like ones, over these
constexpr float kMorePerPass = 0.25F;
constexpr float kAgreed = 0.1F;   // standard error of the passes, over their mean
constexpr float kLeastAlike = 4;  // of eight

double sure_luminance(const Film& film, int pixel) {
    const Film::MeanAndError others = film.without_brightest_pass(pixel);
    if (!(others.mean > 0)) return 0;
    const double error = others.stderr_of_mean / others.mean;
    const double sure = others.mean * std::clamp(kFade * (1 - error), 0.0, 1.0);
    const double brightest = film.in_cd_m2(film.state().brightest_pass[static_cast<size_t>(pixel)]);
    const double n = film.passes();
    return ((n - 1) * sure + std::min(brightest, kMostOverOthers * sure)) / n;
}

bool is_lamp(const SeenPoint& seen) {
    return seen.shows_lamp || is_soft_lamp(seen);
}

// How many times brighter than the like pixels around it a pixel may be.
float most_over_neighbours(const Film& film, size_t pixel) {
    const int i = static_cast<int>(pixel);
    const auto error = static_cast<float>(film.luminance_stderr(i) / film.resolve(i).y);
    const float over_noise = kMostLone + kMorePerPass * static_cast<float>(film.passes());
    return over_noise * (1 + square(square(kAgreed / error)));
}

// Calls visit(j) for the up to eight pixels around one.
template <class Visit>
void for_each_beside(const Plane& plane, size_t pixel, const Visit& visit) {
    const int x = static_cast<int>(pixel) % plane.width;
    const int y = static_cast<int>(pixel) / plane.width;
    for (int v = std::max(0, y - 1); v <= std::min(plane.height - 1, y + 1); ++v) {
        for (int u = std::max(0, x - 1); u <= std::min(plane.width - 1, x + 1); ++u) {
            const auto j = static_cast<size_t>(v * plane.width + u);
            if (j != pixel) visit(j);
        }
    }
}

float least_beside(const Plane& light, size_t pixel) {
    float least = std::numeric_limits<float>::infinity();
    for_each_beside(light, pixel, [&](size_t j) { least = std::min(least, light[j]); });
    return least;
}

// Mean light of the like pixels around one; infinite where fewer than half of the eight are alike.
float light_beside(const SeenPoints& seen, const Plane& light, size_t pixel) {
    float sum = 0;
    float alike = 0;
    for_each_beside(light, pixel, [&](size_t j) {
        const float like = likeness(seen.pixels[pixel], seen.pixels[j], 1);
        sum += like * light[j];
        alike += like;
    });
    return alike >= kLeastAlike ? sum / alike : std::numeric_limits<float>::infinity();
}

}  // namespace

Plane sure_share(const Film& film,
                 const SeenPoints& seen,
                 const Plane& light,
                 const Plane& reflectance) {
    if (film.passes() < 2) return {light.width, light.height, 1.0F};
    const Plane sure = make_plane(light.width, light.height, [&](size_t i) {
        const auto own = static_cast<float>(sure_luminance(film, static_cast<int>(i)));
        return (is_lamp(seen.pixels[i]) ? light[i] : std::min(light[i], own)) / reflectance[i];
    });
    const auto as_share = [&](size_t i, float shown) {
        return std::min(1.0F, shown * reflectance[i] / light[i]);
    };
    return make_plane(light.width, light.height, [&](size_t i) {
        if (!(light[i] > 0) || is_lamp(seen.pixels[i])) return 1.0F;
        if (sure[i] <= kMostLone * least_beside(sure, i)) return as_share(i, sure[i]);
        const float shown =
            std::min(sure[i], light_beside(seen, sure, i) * most_over_neighbours(film, i));
        return as_share(i, shown);
    });
}

}  // namespace dapple
