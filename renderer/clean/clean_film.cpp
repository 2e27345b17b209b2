#include "clean/clean_film.h"

#include <algorithm>
#include <array>

#include "clean/clean_error.h"
#include "clean/exchange.h"
#include "clean/link_pixels.h"
#include "clean/noise_image.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

constexpr float kLeastReflectance = 0.02F;
using Colours = std::array<Plane, 3>;

Rgb reflectance_of(const FirstHits& hits, size_t i) {
    return glm::max(hits.albedo[i], Rgb(kLeastReflectance));
}
float luminance_of(const Rgb& c) {
    return 0.2126F * c.r + 0.7152F * c.g + 0.0722F * c.b;
}

template <class XyzAt>
Colours divide(const Film& film, const FirstHits& hits, const XyzAt& xyz_at) {
    Colours result;
    for (Plane& p : result) p = Plane(film.width(), film.height());
    for_each_row(film.height(), [&](int y) {
        for (int x = 0; x < film.width(); ++x) {
            const int pixel = y * film.width() + x;
            const auto i = static_cast<size_t>(pixel);
            const Rgb light = Rgb(linear_rec709_from_xyz() * xyz_at(pixel)) / reflectance_of(hits, i);
            for (int c = 0; c < 3; ++c) result[static_cast<size_t>(c)][i] = light[c];
        }
    });
    return result;
}

std::vector<Xyz> multiply(const Colours& light, const FirstHits& hits) {
    const DMat3 to_xyz = glm::inverse(linear_rec709_from_xyz());
    std::vector<Xyz> result(hits.albedo.size());
    for_each_row(light[0].height, [&](int y) {
        for (int x = 0; x < light[0].width; ++x) {
            const auto i = static_cast<size_t>(y * light[0].width + x);
            const Rgb rgb = Rgb(light[0][i], light[1][i], light[2][i]) * reflectance_of(hits, i);
            result[i] = to_xyz * Xyz(rgb);
        }
    });
    return result;
}

}  // namespace

CleanFrame clean_film(const Film& film, const FirstHits& hits, bool with_layers) {
    const int width = film.width();
    const int height = film.height();
    Colours reflectance;
    for (Plane& p : reflectance) p = Plane(width, height);
    Plane grey(width, height);
    for_each_row(height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const auto i = static_cast<size_t>(y * width + x);
            const Rgb r = reflectance_of(hits, i);
            for (int c = 0; c < 3; ++c) reflectance[static_cast<size_t>(c)][i] = r[c];
            grey[i] = luminance_of(r);
        }
    });
    GuideImages guide{Plane(width, height), make_noise_image(film, hits)};
    for_each_row(height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const auto i = static_cast<size_t>(y * width + x);
            guide.light[i] = static_cast<float>(film.resolve(static_cast<int>(i)).y) / grey[i];
            guide.noise[i] /= grey[i];
        }
    });
    const GuideImages measured = guide;
    std::vector<Colours> layers;
    layers.push_back(divide(film, hits, [&](int pixel) { return film.resolve(pixel); }));
    if (with_layers) {
        for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
            layers.push_back(divide(film, hits, [&](int pixel) { return film.resolve(pixel, g); }));
        }
    }
    for (int level = 0; level < tuning.levels; ++level) {
        std::vector<Links> links = make_feature_links(hits, 1 << level);
        test_links(guide, level, links);
        const Plane sums = sum_weights(links);
        exchange_light(links, sums, grey, guide.light);
        exchange_light(links, sums, grey, guide.noise);
        for (Colours& layer : layers) {
            for (size_t c = 0; c < 3; ++c) exchange_light(links, sums, reflectance[c], layer[c]);
        }
    }
    CleanFrame frame{width, height, multiply(layers.front(), hits), {}, {}};
    const Plane error = estimate_error(measured, guide);
    for (size_t i = 0; i < error.values.size(); ++i) {
        frame.luminance_stderr.push_back(error[i] * grey[i]);
    }
    for (size_t g = 1; g < layers.size(); ++g) frame.layers.push_back(multiply(layers[g], hits));
    return frame;
}

double typical_error_percent(const CleanFrame& frame) {
    std::vector<double> errors;
    const size_t step = std::max<size_t>(1, frame.total.size() / 4096);
    for (size_t i = step / 2; i < frame.total.size(); i += step) {
        const double mean = frame.total[i].y;
        if (mean > 0) errors.push_back(static_cast<double>(frame.luminance_stderr[i]) / mean);
    }
    if (errors.empty()) return 0;
    const auto middle = errors.begin() + static_cast<std::ptrdiff_t>(errors.size() / 2);
    std::nth_element(errors.begin(), middle, errors.end());
    return 100 * *middle;
}

}  // namespace dapple
