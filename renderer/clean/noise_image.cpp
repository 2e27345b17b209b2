#include "clean/noise_image.h"

#include <cmath>
#include <utility>

#include "base/random.h"

namespace dapple {

namespace {

// The difference between the means of the odd and the even passes, with the noise of the mean of
// all n passes.
double odd_less_even(double n, double odd_sum, double even_sum) {
    const double odd_passes = std::floor(n / 2);
    const double even_passes = n - odd_passes;
    return (odd_sum / odd_passes - even_sum / even_passes) * std::sqrt(odd_passes * even_passes) /
           n;
}

double noise_of_single_pass(const Film& film, const SeenPoints& seen, int pixel) {
    const std::vector<double>& light = film.state().other_light;
    const auto i = static_cast<size_t>(pixel);
    double sum = 0;
    int count = 0;
    for (const auto& [dx, dy] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
        const int x = pixel % film.width() + dx;
        const int y = pixel / film.width() + dy;
        if (x < 0 || y < 0 || x >= film.width() || y >= film.height()) continue;
        const auto j = static_cast<size_t>(y * film.width() + x);
        if (seen.pixels[j].surface != seen.pixels[i].surface) continue;
        sum += light[j];
        ++count;
    }
    if (count == 0) return 0;
    const double sign = (mix_bits(static_cast<uint64_t>(pixel), 1) & 1U) != 0 ? 1 : -1;
    return sign * (light[i] - sum / count) / std::sqrt(1 + 1.0 / count);
}

double noise_of_other_light(const Film& film, const SeenPoints& seen, int pixel) {
    const double n = film.passes();
    if (n < 2) return noise_of_single_pass(film, seen, pixel);
    const auto i = static_cast<size_t>(pixel);
    const double odd = film.state().odd_other_light[i];
    const double even = film.state().other_light[i] - odd;
    return odd_less_even(n, odd, even);
}

}  // namespace

Plane make_noise_image(const Film& film, const SeenPoints& seen) {
    const double n = film.passes();
    if (!(n > 0)) return {film.width(), film.height()};
    return make_plane(film.width(), film.height(), [&](size_t i) {
        return film.state().walk_differences[i] / n +
               noise_of_other_light(film, seen, static_cast<int>(i));
    });
}

ColourPlanes make_colour_noise(const Film& film, const Plane& luminance_noise) {
    const double n = film.passes();
    if (n < 2) return {luminance_noise, luminance_noise, luminance_noise};
    const auto pixels = static_cast<size_t>(film.pixels());
    const std::vector<float>& sums = film.state().colour_sums;
    return colours_of(film.width(), film.height(), [&](int pixel) {
        const auto i = static_cast<size_t>(pixel);
        Xyz noise;
        for (size_t c = 0; c < 3; ++c) {
            noise[static_cast<int>(c)] =
                odd_less_even(n, sums[(3 + c) * pixels + i], sums[c * pixels + i]);
        }
        return noise;
    });
}

}  // namespace dapple
