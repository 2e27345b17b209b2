#include "clean/clean_film.h"

#include <algorithm>
#include <array>

#include "clean/clean_error.h"
#include "clean/exchange.h"
#include "clean/hold_back.h"
#include "clean/link_pixels.h"
#include "clean/noise_image.h"
#include "clean/rims.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

constexpr float kLeastReflectance = 0.02F;
using Colours = std::array<Plane, 3>;

Rgb reflectance_of(const SeenPoints& seen, size_t i) {
    return glm::max(seen.pixels[i].albedo, Rgb(kLeastReflectance));
}
float luminance_of(const Rgb& c) {
    return 0.2126F * c.r + 0.7152F * c.g + 0.0722F * c.b;
}

template <class XyzAt>
Colours rgb_of(const Film& film, const XyzAt& xyz_at) {
    Colours result;
    for (Plane& p : result) p = Plane(film.width(), film.height());
    for_each_row(film.height(), [&](int y) {
        for (int x = 0; x < film.width(); ++x) {
            const int pixel = y * film.width() + x;
            const Rgb light(linear_rec709_from_xyz() * xyz_at(pixel));
            for (int c = 0; c < 3; ++c) result[static_cast<size_t>(c)][static_cast<size_t>(pixel)] = light[c];
        }
    });
    return result;
}

std::vector<Xyz> xyz_of(const Colours& light) {
    const DMat3 to_xyz = glm::inverse(linear_rec709_from_xyz());
    std::vector<Xyz> result(light[0].values.size());
    for_each_row(light[0].height, [&](int y) {
        for (int x = 0; x < light[0].width; ++x) {
            const auto i = static_cast<size_t>(y * light[0].width + x);
            result[i] = to_xyz * Xyz(light[0][i], light[1][i], light[2][i]);
        }
    });
    return result;
}

}  // namespace

CleanFrame clean_film(const Film& film, const SeenPoints& seen, double white, bool with_layers) {
    const int width = film.width();
    const int height = film.height();
    const size_t n = seen.pixels.size();
    Plane luminance(width, height), noise = make_noise_image(film, seen), most(width, height);
    for (size_t i = 0; i < n; ++i) luminance[i] = static_cast<float>(film.resolve(static_cast<int>(i)).y);
    const float limit = tuning.high * static_cast<float>(white);
    const Plane held = hold_back(luminance, limit);
    const auto scale = [&](Plane p) {
        for (size_t i = 0; i < n; ++i) p[i] *= 1 - held[i];
        return p;
    };
    const Rims rims(seen, scale(luminance), noise);
    Colours reflectance;
    for (Plane& p : reflectance) p = Plane(width, height);
    Plane grey(width, height);
    for (size_t i = 0; i < n; ++i) {
        const Rgb r = reflectance_of(seen, i) * rims.areas()[i];
        for (int c = 0; c < 3; ++c) reflectance[static_cast<size_t>(c)][i] = r[c];
        grey[i] = luminance_of(r);
    }
    const auto prepare = [&](const Plane& p, const Plane& a) {
        Plane result = rims.divided(scale(p));
        for (size_t i = 0; i < n; ++i) result[i] *= rims.areas()[i] / a[i];
        return result;
    };
    const auto finish = [&](Plane p, const Plane& a, const Plane& whole) {
        for (size_t i = 0; i < n; ++i) p[i] *= a[i] / rims.areas()[i];
        Plane result = rims.joined(p);
        for (size_t i = 0; i < n; ++i) result[i] += held[i] * whole[i];
        return result;
    };
    GuideImages guide{prepare(luminance, grey), prepare(noise, grey)};
    std::vector<Colours> whole;
    whole.push_back(rgb_of(film, [&](int pixel) { return film.resolve(pixel); }));
    if (with_layers) {
        for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
            whole.push_back(rgb_of(film, [&](int pixel) { return film.resolve(pixel, g); }));
        }
    }
    std::vector<Colours> layers(whole.size());
    for (size_t l = 0; l < whole.size(); ++l) {
        for (size_t c = 0; c < 3; ++c) layers[l][c] = prepare(whole[l][c], reflectance[c]);
    }
    for (int level = 0; level < tuning.levels; ++level) {
        std::vector<Links> links = make_feature_links(seen, rims.alone(), 1 << level);
        test_links(guide, level, links);
        const Plane sums = sum_weights(links);
        exchange_light(links, sums, grey, guide.light);
        exchange_light(links, sums, grey, guide.noise);
        for (Colours& layer : layers) {
            for (size_t c = 0; c < 3; ++c) exchange_light(links, sums, reflectance[c], layer[c]);
        }
    }
    for (size_t l = 0; l < layers.size(); ++l) {
        for (size_t c = 0; c < 3; ++c) layers[l][c] = finish(layers[l][c], reflectance[c], whole[l][c]);
    }
    CleanFrame frame{width, height, xyz_of(layers.front()), {}, {}};
    const Plane error = estimate_error({luminance, noise}, {finish(guide.light, grey, luminance), finish(guide.noise, grey, noise)});
    frame.luminance_stderr = error.values;
    for (size_t g = 1; g < layers.size(); ++g) frame.layers.push_back(xyz_of(layers[g]));
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
