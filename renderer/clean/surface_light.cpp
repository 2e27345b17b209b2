#include "clean/surface_light.h"

#include <algorithm>

#include "clean/hold_back.h"
#include "clean/noise_image.h"
#include "clean/sure_light.h"

namespace dapple {

namespace {

constexpr float kLeastReflectance = 0.02F;  // gloss on black is not divided by almost nothing

Plane film_luminance(const Film& film) {
    return make_plane(
        film.width(), film.height(), [&](size_t i) { return film.resolve(static_cast<int>(i)).y; });
}

Plane luminance_reflectance(const SeenPoints& seen) {
    return make_plane(seen.width, seen.height, [&](size_t i) {
        return SurfaceLight::reflectances(seen.pixels[i])[SurfaceLight::kLuminance];
    });
}

}  // namespace

std::array<float, 4> SurfaceLight::reflectances(const SeenPoint& seen) {
    const Rgb r = glm::max(seen.albedo, Rgb(kLeastReflectance));
    return {r.r, r.g, r.b, 0.2126F * r.r + 0.7152F * r.g + 0.0722F * r.b};
}

SurfaceLight::SurfaceLight(const Film& film, const SeenPoints& seen, double white_luminance)
    : luminance_(film_luminance(film)),
      noise_(make_noise_image(film, seen)),
      shown_(sure_share(film, seen, luminance_, luminance_reflectance(seen))),
      held_(hold_back(
          film, seen, {luminance_, shown_, luminance_reflectance(seen)}, white_luminance)),
      unsure_(make_plane(
          film.width(),
          film.height(),
          [&](size_t i) { return luminance_[i] * std::max(0.0F, 1 - shown_[i] - held_[i]); })),
      rims_(seen, released(luminance_), noise_),
      lamps_(seen) {
    // Of the light left in a pixel, what only a few passes have found is not shown.
    for_each_pixel(shown_,
                   [&](size_t i) { shown_[i] = std::max(0.0F, held_[i] - (1 - shown_[i])); });
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

Plane SurfaceLight::left_out() const {
    return make_plane(luminance_.width, luminance_.height, [&](size_t i) {
        return luminance_[i] * (held_[i] - shown_[i]);
    });
}

Plane SurfaceLight::to_surfaces(const Plane& light, size_t channel) const {
    Plane divided = rims_.divided(released(light));
    for_each_pixel(divided, [&](size_t i) { divided[i] /= amounts_[channel][i]; });
    lamps_.even_out(divided);
    return divided;
}

Plane SurfaceLight::unsure_luminance(const Plane& own_weights) const {
    Plane per_area = rims_.divided(unsure_);
    for_each_pixel(per_area, [&](size_t i) { per_area[i] *= own_weights[i] / rims_.areas()[i]; });
    return rims_.joined(per_area);
}

Plane SurfaceLight::to_pixels(const Plane& on_surfaces, size_t channel, const Plane& light) const {
    const Plane per_area = make_plane(light.width, light.height, [&](size_t i) {
        return on_surfaces[i] * amounts_[channel][i] / rims_.areas()[i];
    });
    Plane result = rims_.joined(per_area);
    for_each_pixel(result, [&](size_t i) { result[i] += shown_[i] * light[i]; });
    return result;
}

}  // namespace dapple
