#include "clean/surface_light.h"

#include <algorithm>

#include "clean/hold_back.h"
#include "clean/noise_image.h"

namespace dapple {

namespace {

constexpr float kLeastReflectance = 0.02F;  // gloss on black is not divided by almost nothing

Plane film_luminance(const Film& film) {
    return make_plane(
        film.width(), film.height(), [&](size_t i) { return film.resolve(static_cast<int>(i)).y; });
}

}  // namespace

std::array<float, 4> SurfaceLight::reflectances(const SeenPoint& seen) {
    const Rgb r = glm::max(seen.albedo, Rgb(kLeastReflectance));
    return {r.r, r.g, r.b, 0.2126F * r.r + 0.7152F * r.g + 0.0722F * r.b};
}

SurfaceLight::SurfaceLight(const Film& film, const SeenPoints& seen, double white_luminance)
    : luminance_(film_luminance(film)),
      noise_(make_noise_image(film, seen)),
      held_(hold_back(film, luminance_, white_luminance)),
      rims_(seen, released(luminance_), noise_) {
    for (size_t c = 0; c < amounts_.size(); ++c) {
        amounts_[c] = make_plane(film.width(), film.height(), [&](size_t i) {
            return reflectances(seen.pixels[i])[c] * rims_.areas()[i];
        });
    }
}

Plane SurfaceLight::released(const Plane& light) const {
    return make_plane(
        light.width, light.height, [&](size_t i) { return light[i] * (1 - held_[i]); });
}

Plane SurfaceLight::to_surfaces(const Plane& light, size_t channel) const {
    Plane divided = rims_.divided(released(light));
    for (size_t i = 0; i < divided.size(); ++i) divided[i] /= amounts_[channel][i];
    return divided;
}

Plane SurfaceLight::to_pixels(const Plane& on_surfaces, size_t channel, const Plane& light) const {
    const Plane per_area = make_plane(light.width, light.height, [&](size_t i) {
        return on_surfaces[i] * amounts_[channel][i] / rims_.areas()[i];
    });
    Plane result = rims_.joined(per_area);
    for (size_t i = 0; i < result.size(); ++i) result[i] += held_[i] * light[i];
    return result;
}

}  // namespace dapple
