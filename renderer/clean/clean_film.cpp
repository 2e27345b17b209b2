#include "clean/clean_film.h"

#include <algorithm>

#include "clean/clean_error.h"
#include "clean/exchange.h"
#include "clean/link_pixels.h"
#include "clean/surface_light.h"

namespace dapple {

namespace {

// All light, then each light group.
std::vector<ColourPlanes> film_layers(const Film& film, bool with_groups) {
    std::vector<ColourPlanes> layers = {film_colours(film)};
    if (!with_groups) return layers;
    for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
        layers.push_back(film_colours(film, g));
    }
    return layers;
}

// Level by level: the guide images show which pixels may exchange light, then the guide images and
// all layers exchange it.
void clean_levels(const SeenPoints& seen,
                  const SurfaceLight& surfaces,
                  GuideImages& guide,
                  std::vector<ColourPlanes>& layers) {
    for (int level = 0; level < kLevels; ++level) {
        std::vector<Links> links = make_links(seen, surfaces.alone(), level);
        test_links(guide, level, links);
        const Exchange exchange(links);
        exchange.apply(surfaces.amounts(SurfaceLight::kLuminance), guide.light);
        exchange.apply(surfaces.amounts(SurfaceLight::kLuminance), guide.noise);
        for (ColourPlanes& layer : layers) {
            for (size_t c = 0; c < 3; ++c) exchange.apply(surfaces.amounts(c), layer[c]);
        }
    }
}

}  // namespace

CleanFrame clean_film(const Film& film,
                      const SeenPoints& seen,
                      double white_luminance,
                      bool with_layers) {
    constexpr size_t kLuminance = SurfaceLight::kLuminance;
    const SurfaceLight surfaces(film, seen, white_luminance);
    const std::vector<ColourPlanes> measured = film_layers(film, with_layers);
    GuideImages guide{surfaces.to_surfaces(surfaces.luminance(), kLuminance),
                      surfaces.to_surfaces(surfaces.noise(), kLuminance)};
    std::vector<ColourPlanes> layers = measured;
    for (ColourPlanes& layer : layers) {
        for (size_t c = 0; c < 3; ++c) layer[c] = surfaces.to_surfaces(layer[c], c);
    }
    clean_levels(seen, surfaces, guide, layers);
    for (size_t l = 0; l < layers.size(); ++l) {
        for (size_t c = 0; c < 3; ++c) {
            layers[l][c] = surfaces.to_pixels(layers[l][c], c, measured[l][c]);
        }
    }
    const Plane light = surfaces.to_pixels(guide.light, kLuminance, surfaces.luminance());
    const Plane noise = surfaces.to_pixels(guide.noise, kLuminance, surfaces.noise());
    CleanFrame frame{film.width(), film.height(), xyz_of(layers.front()), {}, {}};
    frame.luminance_stderr =
        estimate_error({surfaces.luminance(), surfaces.noise()}, {light, noise}).values;
    for (size_t l = 1; l < layers.size(); ++l) frame.layers.push_back(xyz_of(layers[l]));
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
