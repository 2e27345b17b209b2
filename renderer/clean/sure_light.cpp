#include "clean/sure_light.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr double kMostOverOthers = 4;  // of the brightest pass
constexpr double kFade = 2;

double sure_luminance(const Film& film, int pixel) {
    const Film::MeanAndError others = film.without_brightest_pass(pixel);
    if (!(others.mean > 0)) return 0;
    const double error = others.stderr_of_mean / others.mean;
    const double sure = others.mean * std::clamp(kFade * (1 - error), 0.0, 1.0);
    const double brightest = film.in_cd_m2(film.state().brightest_pass[static_cast<size_t>(pixel)]);
    const double n = film.passes();
    return ((n - 1) * sure + std::min(brightest, kMostOverOthers * sure)) / n;
}

}  // namespace

Plane sure_share(const Film& film, const SeenPoints& seen, const Plane& light) {
    if (film.passes() < 2) return {light.width, light.height, 1.0F};
    return make_plane(light.width, light.height, [&](size_t i) {
        if (!(light[i] > 0) || seen.pixels[i].shows_lamp) return 1.0F;
        const auto sure = static_cast<float>(sure_luminance(film, static_cast<int>(i)));
        return std::min(1.0F, sure / light[i]);
    });
}

}  // namespace dapple
