#include "develop/develop.h"

#include <algorithm>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

template <typename XyzAt>
Picture develop_pixels(int width, int height, const Camera& camera, const XyzAt& xyz_at) {
    Picture picture{width, height, {}};
    picture.pixels.resize(static_cast<size_t>(width) * static_cast<size_t>(height));
    const DMat3 develop = develop_matrix(camera);
    parallel_blocks(static_cast<int64_t>(width) * height, 4096, [&](int64_t first, int64_t last) {
        for (int64_t i = first; i < last; ++i) {
            picture.pixels[static_cast<size_t>(i)] = Rgb(develop * xyz_at(static_cast<int>(i)));
        }
    });
    return picture;
}

float luminance_of(const Rgb& c) {
    return 0.2126F * c.r + 0.7152F * c.g + 0.0722F * c.b;
}
float highest(const Rgb& c) {
    return std::max({c.r, c.g, c.b});
}
float lowest(const Rgb& c) {
    return std::min({c.r, c.g, c.b});
}

// Moves a colour towards the grey of its luminance; `keep` of the distance to that grey stays.
Rgb desaturate(const Rgb& c, float grey, float keep) {
    return Rgb(grey) + keep * (c - Rgb(grey));
}

Rgb raise_to_zero(const Rgb& c, float grey) {
    const float low = lowest(c);
    return low < 0 ? desaturate(c, grey, grey / (grey - low)) : c;
}

// A colour whose brightness the shoulder does not change is returned to the bit.
Rgb tone(const Rgb& c, float luminance) {
    const float brightness = 0.5F * (luminance + highest(c));
    if (brightness <= kShoulderKnee) return c;
    const float held = shoulder(brightness) / brightness;
    const float toned = held * held * luminance + (1 - held) * shoulder(luminance);
    return c * (toned / luminance);
}

Rgb lower_to_one(const Rgb& c) {
    const float grey = luminance_of(c);
    const float reach = (highest(c) - grey) / std::max(1 - grey, 1e-6F);
    return reach <= kShoulderKnee ? c : desaturate(c, grey, shoulder(reach) / reach);
}

}  // namespace

DMat3 develop_matrix(const Camera& camera) {
    const DMat3 balance = bradford_adaptation(white_point_of(camera.white_k), d65_white());
    return linear_rec709_from_xyz() * balance * (1.0 / white_luminance(camera));
}

Picture develop_linear(const Film& film, const Camera& camera) {
    return develop_pixels(
        film.width(), film.height(), camera, [&](int pixel) { return film.resolve(pixel); });
}

Picture develop_linear(const Film& film, const Camera& camera, int group) {
    return develop_pixels(
        film.width(), film.height(), camera, [&](int pixel) { return film.resolve(pixel, group); });
}

Picture develop_linear(const CleanFrame& frame, const Camera& camera) {
    return develop_pixels(frame.width, frame.height, camera, [&](int pixel) {
        return frame.total[static_cast<size_t>(pixel)];
    });
}

void add_glare(const GlareFrame& glare, const Camera& camera, Picture& linear) {
    if (!glare.is_there()) return;
    const Picture added = develop_pixels(linear.width, linear.height, camera, [&](int pixel) {
        Xyz sum(0);
        for (const auto& layer : glare.layers) sum += layer[static_cast<size_t>(pixel)];
        return sum;
    });
    for (size_t i = 0; i < linear.pixels.size(); ++i) linear.pixels[i] += added.pixels[i];
}

float shoulder(float x) {
    if (x <= kShoulderKnee) return x;
    constexpr float kRoom = 1 - kShoulderKnee;
    const float u = (x - kShoulderKnee) / kRoom;
    return kShoulderKnee + kRoom * (u / (1 + u));
}

Rgb display_colour(const Rgb& linear) {
    const float luminance = luminance_of(linear);
    if (!(luminance > 0)) return Rgb(0);
    const Rgb toned = tone(raise_to_zero(linear, luminance), luminance);
    const Rgb shown = glm::clamp(lower_to_one(toned), Rgb(0), Rgb(1));  // rounding only
    return Rgb(srgb_encode(shown.r), srgb_encode(shown.g), srgb_encode(shown.b));
}

Picture develop_display(const Picture& linear) {
    Picture picture{linear.width, linear.height, {}};
    picture.pixels.resize(linear.pixels.size());
    parallel_blocks(
        static_cast<int64_t>(linear.pixels.size()), 4096, [&](int64_t first, int64_t last) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                picture.pixels[i] = display_colour(linear.pixels[i]);
            }
        });
    return picture;
}

}  // namespace dapple
