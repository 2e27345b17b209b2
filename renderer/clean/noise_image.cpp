#include "clean/noise_image.h"

#include <cmath>

#include "base/random.h"

namespace dapple {

namespace {

// Noise of the light other than light walks after a single pass. That light is independent from
// pixel to pixel, so the pixel's difference from its neighbours on the same surface has its noise.
// A random sign keeps the noise of neighbours independent.
double noise_of_single_pass(const Film& film, const SeenPoints& seen, int pixel) {
    const int width = film.width();
    const std::vector<double>& light = film.state().other_light;
    const auto i = static_cast<size_t>(pixel);
    double sum = 0;
    int count = 0;
    const auto look = [&](int x, int y) {
        if (x < 0 || y < 0 || x >= width || y >= film.height()) return;
        const auto j = static_cast<size_t>(y * width + x);
        if (seen.pixels[j].surface != seen.pixels[i].surface) return;
        sum += light[j];
        ++count;
    };
    const int x = pixel % width;
    const int y = pixel / width;
    look(x - 1, y);
    look(x + 1, y);
    look(x, y - 1);
    look(x, y + 1);
    if (count == 0) return 0;
    const double difference = light[i] - sum / count;
    const double sign = (mix_bits(static_cast<uint64_t>(pixel), 1) & 1U) != 0 ? 1 : -1;
    return sign * difference / std::sqrt(1 + 1.0 / count);
}

double noise_of_other_light(const Film& film, const SeenPoints& seen, int pixel) {
    const double n = film.passes();
    if (n < 2) return noise_of_single_pass(film, seen, pixel);
    const auto i = static_cast<size_t>(pixel);
    const double odd = film.state().odd_other_light[i];
    const double even = film.state().other_light[i] - odd;
    const double odd_passes = std::floor(n / 2);
    const double even_passes = n - odd_passes;
    return (odd / odd_passes - even / even_passes) * std::sqrt(odd_passes * even_passes) / n;
}

}  // namespace

Plane make_noise_image(const Film& film, const SeenPoints& seen) {
    Plane noise(film.width(), film.height());
    if (film.passes() == 0) return noise;
    const double n = film.passes();
    for_each_row(film.height(), [&](int y) {
        for (int x = 0; x < film.width(); ++x) {
            const int pixel = y * film.width() + x;
            const auto i = static_cast<size_t>(pixel);
            noise[i] = static_cast<float>(film.state().walk_differences[i] / n +
                                          noise_of_other_light(film, seen, pixel));
        }
    });
    return noise;
}

}  // namespace dapple
