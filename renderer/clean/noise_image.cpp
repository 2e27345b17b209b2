#include "clean/noise_image.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/random.h"

namespace dapple {

namespace {

// How many passes a film has of each parity.
struct Parities {
    explicit Parities(const Film& film)
        : odd(static_cast<double>(film.state().passes.odd_count())), even(film.passes() - odd) {}

    bool has_both() const { return odd > 0 && even > 0; }
    // The difference between the means of the odd and the even passes, with the noise of the mean
    // of all passes.
    double odd_less_even(double odd_sum, double even_sum) const {
        return (odd_sum / odd - even_sum / even) * std::sqrt(odd * even) / (odd + even);
    }

    double odd;
    double even;
};

double noise_against_neighbours(const Film& film, const SeenPoints& seen, int pixel) {
    const QuantaPlane& light = film.state().other_light;
    const auto i = static_cast<size_t>(pixel);
    double sum = 0;
    int count = 0;
    for (const auto& [dx, dy] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
        const int x = pixel % film.width() + dx;
        const int y = pixel / film.width() + dy;
        if (x < 0 || y < 0 || x >= film.width() || y >= film.height()) continue;
        const auto j = static_cast<size_t>(y * film.width() + x);
        if (seen.pixels[j].surface != seen.pixels[i].surface) continue;
        sum += film.in_cd_m2(light[j]);
        ++count;
    }
    if (count == 0) return 0;
    const double sign = (mix_bits(static_cast<uint64_t>(pixel), 1) & 1U) != 0 ? 1 : -1;
    return sign * (film.in_cd_m2(light[i]) - sum / count) / std::sqrt(1 + 1.0 / count) /
           film.passes();
}

double noise_of_other_light(const Film& film, const SeenPoints& seen, int pixel) {
    const Parities passes(film);
    if (!passes.has_both()) return noise_against_neighbours(film, seen, pixel);
    const auto i = static_cast<size_t>(pixel);
    const int64_t odd = film.state().odd_other_light[i];
    const int64_t even = film.state().other_light[i] - odd;
    return passes.odd_less_even(film.in_cd_m2(odd), film.in_cd_m2(even));
}

}  // namespace

bool has_both_parities(const Film& film) {
    return Parities(film).has_both();
}

Plane make_noise_image(const Film& film, const SeenPoints& seen) {
    const double n = film.passes();
    if (!(n > 0)) return {film.width(), film.height()};
    const auto pixels = static_cast<size_t>(film.pixels());
    return make_plane(film.width(), film.height(), [&](size_t i) {
        return film.in_cd_m2(film.state().walk_differences[pixels + i]) / n +
               noise_of_other_light(film, seen, static_cast<int>(i));
    });
}

ColourPlanes make_colour_noise(const Film& film) {
    const Parities passes(film);
    const auto pixels = static_cast<size_t>(film.pixels());
    const QuantaPlane& sums = film.state().colour_sums;
    const QuantaPlane& walks = film.state().walk_differences;
    return colours_of(film.width(), film.height(), [&](int pixel) {
        const auto i = static_cast<size_t>(pixel);
        Xyz noise;
        for (size_t c = 0; c < 3; ++c) {
            noise[static_cast<int>(c)] =
                passes.has_both()
                    ? passes.odd_less_even(film.in_cd_m2(sums[(3 + c) * pixels + i]),
                                           film.in_cd_m2(sums[c * pixels + i]))
                    : film.in_cd_m2(walks[c * pixels + i]) / std::max(1, film.passes());
        }
        return noise;
    });
}

}  // namespace dapple
