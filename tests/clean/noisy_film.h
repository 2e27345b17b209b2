// Films with known light and known noise, and what their pixels see.
#pragma once

#include <cmath>
#include <functional>

#include "base/random.h"
#include "clean/clean_film.h"
#include "film/film.h"
#include "film/seen_points.h"
#include "spectrum/illuminants.h"
#include "spectrum/source_spectrum.h"

namespace dapple::test {

inline constexpr double kWhite = 100;  // cd/m²

// A wall at right angles to the view, one metre a pixel, with reflectance 0.5.
inline SeenPoints plain_wall(int width, int height) {
    SeenPoints seen{width, height, {}, {}};
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            seen.pixels.push_back({.position = Point(x, y, 0),
                                   .footprint_m = 1,
                                   .normal = Normal(0, 0, 1),
                                   .surface = 0,
                                   .albedo = Rgb(0.5F)});
        }
    }
    return seen;
}

// A uniform number of pixel `i` in a pass.
inline double uniform(int i, int pass) {
    RandomStream random(7, static_cast<uint32_t>(pass), static_cast<uint64_t>(i), Purpose::kTest);
    return static_cast<double>(random.next());
}

// Noise with mean 1 and standard deviation 1, never below 0, as camera walks have it.
inline double white_noise(int i, int pass) {
    return -std::log(1 - uniform(i, pass));
}

inline std::vector<LightGroup> one_group() {
    return {{"key", normalised_to_lumen(daylight_d65()), 0}};
}

// Luminance in cd/m² that a pass adds to a pixel.
using LightAt = std::function<double(int x, int y, int pass)>;

inline Film make_film(int width, int height, int passes, const LightAt& light) {
    Film film(width, height, one_group(), 0x1p-24);
    for (int pass = 0; pass < passes; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int i = 0; i < film.pixels(); ++i) {
            const double value = light(i % width, i / width, pass);
            film.add(i, 0, Spectrum(static_cast<float>(value)));
        }
        film.end_pass();
    }
    return film;
}

// Light of `mean` cd/m² made of discs like those of light walks: `discs` in each pass, `radius` px.
inline Film make_film_of_discs(
    int width, int height, int passes, int discs, int radius, double mean) {
    Film film(width, height, one_group(), 0x1p-24);
    int area = 0;
    for (int y = -radius; y <= radius; ++y) {
        for (int x = -radius; x <= radius; ++x) area += x * x + y * y <= radius * radius ? 1 : 0;
    }
    // Discs also lie outside the frame, so that the light is even up to its edge.
    const int across = width + 2 * radius;
    const int down = height + 2 * radius;
    const double value = mean * across * down / (static_cast<double>(discs) * area);
    for (int pass = 0; pass < passes; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int d = 0; d < discs; ++d) {
            const int u = static_cast<int>(uniform(2 * d, pass) * across) - radius;
            const int v = static_cast<int>(uniform(2 * d + 1, pass) * down) - radius;
            for (int y = std::max(0, v - radius); y <= std::min(height - 1, v + radius); ++y) {
                for (int x = std::max(0, u - radius); x <= std::min(width - 1, u + radius); ++x) {
                    if ((x - u) * (x - u) + (y - v) * (y - v) > radius * radius) continue;
                    film.add(x, y, 0, Spectrum(static_cast<float>(value)), d % 2);
                }
            }
        }
        film.end_pass();
    }
    return film;
}

inline double luminance(const CleanFrame& frame, int x, int y) {
    return frame.total[static_cast<size_t>(y * frame.width + x)].y;
}

inline double sum_of(const CleanFrame& frame) {
    double sum = 0;
    for (const Xyz& c : frame.total) sum += c.y;
    return sum;
}

inline double sum_of(const Film& film) {
    double sum = 0;
    for (int i = 0; i < film.pixels(); ++i) sum += film.resolve(i).y;
    return sum;
}

// Root mean square of value_at(i)/truth - 1 over all pixels.
inline double relative_error(int pixels, const std::function<double(int)>& value_at, double truth) {
    double sum = 0;
    for (int i = 0; i < pixels; ++i) sum += std::pow(value_at(i) / truth - 1, 2);
    return std::sqrt(sum / pixels);
}

inline double relative_error(const CleanFrame& frame, double truth) {
    const auto at = [&](int i) { return frame.total[static_cast<size_t>(i)].y; };
    return relative_error(frame.width * frame.height, at, truth);
}

inline double relative_error(const Film& film, double truth) {
    return relative_error(
        film.pixels(), [&](int i) { return film.resolve(i).y; }, truth);
}

}  // namespace dapple::test
