#include "clean/clean_film.h"

#include <algorithm>

#include "clean/clean_error.h"
#include "clean/coarse_light.h"
#include "clean/exchange.h"
#include "clean/link_pixels.h"
#include "clean/noise_image.h"
#include "clean/spread_light.h"
#include "clean/sure_colours.h"
#include "clean/surface_light.h"

namespace dapple {

namespace {

constexpr float kMostGain = 4;  // of colours that come from a darker place
constexpr int kAround = 1;      // px

// All light, then each light group.
std::vector<ColourPlanes> film_layers(const Film& film, bool with_groups) {
    std::vector<ColourPlanes> layers = {film_colours(film)};
    if (!with_groups) return layers;
    for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
        layers.push_back(film_colours(film, g));
    }
    return layers;
}

// Brightness and colour are cleaned apart, each by the links that its own noise allows. Coloured
// noise is stronger than that of brightness, because glass leaves walks with one wavelength, and
// the eye cares less for sharp colours.
struct Guides {
    GuideImages brightness;
    GuideImages colour;  // the red and the blue channel less the luminance
};

// What is tested for the colour of light: red and blue less the luminance. Blue counts half; that
// is a choice, and other weights were not compared.
std::vector<Plane> colour_differences(const ColourPlanes& colours) {
    const Plane luminance = luminance_of(colours);
    std::vector<Plane> result;
    for (const auto& [channel, scale] : {std::pair{0, 1.0F}, {2, 0.5F}}) {
        const Plane& own = colours[static_cast<size_t>(channel)];
        result.push_back(make_plane(
            own.width, own.height, [&](size_t i) { return scale * (own[i] - luminance[i]); }));
    }
    return result;
}

// Light of camera walks has unknown noise of colours after one pass: it counts as much as that of
// its brightness.
std::vector<Plane> colour_noise(const Film& film, const SurfaceLight& surfaces) {
    ColourPlanes noise = make_colour_noise(film);
    Plane other = luminance_of(noise);
    for (size_t c = 0; c < 3; ++c) noise[c] = surfaces.to_surfaces(noise[c], c);
    std::vector<Plane> differences = colour_differences(noise);
    if (has_both_parities(film)) return differences;
    for_each_pixel(other, [&](size_t i) { other[i] = surfaces.noise()[i] - other[i]; });
    other = surfaces.to_surfaces(other, SurfaceLight::kLuminance);
    for (Plane& plane : differences) {
        for_each_pixel(plane, [&](size_t i) { plane[i] += other[i]; });
    }
    return differences;
}

// How much light is at each pixel after the exchange by the links for brightness, for that after
// the exchange by the links for colours. Colours that come from a brighter place get weaker.
Plane colour_gain(const Plane& amounts,
                  const Exchange& brightness,
                  const Exchange& colour,
                  const Plane& luminance) {
    const Plane wanted = brightness.apply(amounts, luminance);
    const Plane carried = colour.apply(amounts, luminance);
    return make_plane(luminance.width, luminance.height, [&](size_t i) {
        return carried[i] > 0.0F ? std::clamp(wanted[i] / carried[i], 0.0F, kMostGain) : 1.0F;
    });
}

// The exchange of one level (E135).
class LevelExchange {
  public:
    LevelExchange(const SurfaceLight& surfaces,
                  const std::vector<Links>& brightness,
                  const std::vector<Links>& colour,
                  const Plane& luminance)
        : surfaces_(surfaces),
          brightness_(brightness),
          colour_(colour),
          gain_(colour_gain(amounts(), brightness_, colour_, luminance)) {}

    void exchange(Guides& guides) const {
        for (Plane& image : guides.brightness.light) image = brightness_.apply(amounts(), image);
        for (Plane& image : guides.brightness.noise) image = brightness_.apply(amounts(), image);
        for (Plane& image : guides.colour.noise) image = colours(amounts(), image);
    }
    // What is left of each pixel's own brightness in it.
    Plane own_weights() const { return brightness_.own_weights(amounts()); }

    void exchange(ColourPlanes& layer) const {
        const Plane luminance = luminance_of(layer);
        for (size_t c = 0; c < 3; ++c) {
            Plane& channel = layer[c];
            for_each_pixel(channel, [&](size_t i) { channel[i] -= luminance[i]; });
            channel = colours(surfaces_.amounts(c), channel);
            const Plane grey = brightness_.apply(surfaces_.amounts(c), luminance);
            for_each_pixel(channel, [&](size_t i) { channel[i] += grey[i]; });
        }
    }

  private:
    const Plane& amounts() const { return surfaces_.amounts(SurfaceLight::kLuminance); }
    Plane colours(const Plane& amounts, const Plane& differences) const {
        Plane result = colour_.apply(amounts, differences);
        for_each_pixel(result, [&](size_t i) { result[i] *= gain_[i]; });
        return result;
    }

    const SurfaceLight& surfaces_;
    Exchange brightness_;
    Exchange colour_;
    Plane gain_;
};

// Level by level: the guide images show which pixels may exchange light, then the guide images and
// all layers exchange it. The first layer is all light. Returns the weight of each pixel's own
// brightness in the end.
Plane clean_levels(const SeenPoints& seen,
                   const SurfaceLight& surfaces,
                   Guides& guides,
                   std::vector<ColourPlanes>& layers) {
    Plane own_weights(seen.width, seen.height, 1.0F);
    for (int level = 0; level < kLevels; ++level) {
        guides.colour.light = colour_differences(layers.front());
        std::vector<Links> links = make_links(seen, surfaces.alone(), level);
        std::vector<Links> colour_links = links;
        test_links(guides.brightness, level, links);
        test_links(guides.colour, level, colour_links);
        const LevelExchange exchange(surfaces, links, colour_links, luminance_of(layers.front()));
        exchange.exchange(guides);
        for (ColourPlanes& layer : layers) exchange.exchange(layer);
        const Plane own = exchange.own_weights();
        for_each_pixel(own_weights, [&](size_t i) { own_weights[i] *= own[i]; });
    }
    return own_weights;
}

// Colours were exchanged apart from brightness, which must neither gain nor lose light by that:
// scales all layers, so that the first, which is all light, has the given luminance.
void set_luminance(const Plane& wanted, std::vector<ColourPlanes>& layers) {
    const Plane present = luminance_of(layers.front());
    for_each_pixel(present, [&](size_t i) {
        if (!(present[i] > 0.0F && wanted[i] > 0.0F)) return;
        const float scale = wanted[i] / present[i];
        for (ColourPlanes& layer : layers) {
            for (Plane& channel : layer) channel[i] *= scale;
        }
    });
}

// All that is cleaned, as light over reflectance.
struct CleanSurfaces {
    SurfaceLight surfaces;
    std::vector<ColourPlanes> measured;  // by pixel
    Guides guides;
    std::vector<ColourPlanes> layers;
    Plane own_weights;  // of a pixel's own brightness in its cleaned one
};

CleanSurfaces clean_surfaces(const Film& film,
                             const SeenPoints& seen,
                             double white_luminance,
                             bool with_layers) {
    constexpr size_t kLuminance = SurfaceLight::kLuminance;
    CleanSurfaces c{{film, seen, white_luminance}, film_layers(film, with_layers), {}, {}, {}};
    c.guides.brightness = {{c.surfaces.to_surfaces(c.surfaces.luminance(), kLuminance)},
                           {c.surfaces.to_surfaces(c.surfaces.noise(), kLuminance)}};
    c.guides.colour.noise = colour_noise(film, c.surfaces);
    for (const ColourPlanes& measured : c.measured) {
        ColourPlanes& layer = c.layers.emplace_back();
        for (size_t i = 0; i < 3; ++i) layer[i] = c.surfaces.to_surfaces(measured[i], i);
    }
    c.own_weights = clean_levels(seen, c.surfaces, c.guides, c.layers);
    keep_sure_colours(seen, c.guides.colour.noise, c.layers);
    return c;
}

// The cleaned luminance by pixel, without light that hardly any pass has found and that no like
// pixels share:
//   F' = min(F, max(F - u o, ⟨F - u o⟩))                                                  (E141)
// u: such light of a pixel before the exchange; o: its weight there afterwards; ⟨ ⟩: mean over
// 3 × 3 pixels, so that a speck does not become a dark one. At rims u is that of the surfaces.
Plane sure_luminance(const CleanSurfaces& c) {
    constexpr size_t kLuminance = SurfaceLight::kLuminance;
    const Plane luminance =
        c.surfaces.to_pixels(c.guides.brightness.light.front(), kLuminance, c.surfaces.luminance());
    const Plane unsure = c.surfaces.unsure_luminance(c.own_weights);
    const Plane sure = make_plane(luminance.width, luminance.height, [&](size_t i) {
        return std::max(0.0F, luminance[i] - unsure[i]);
    });
    const Plane around = box_sums(sure, kAround);
    const Plane counts = box_sums(Plane(sure.width, sure.height, 1), kAround);
    Plane shown = make_plane(luminance.width, luminance.height, [&](size_t i) {
        return std::min(luminance[i], std::max(sure[i], around[i] / counts[i]));
    });
    Plane left_out = c.surfaces.left_out();
    for_each_pixel(left_out, [&](size_t i) { left_out[i] += luminance[i] - shown[i]; });
    spread_light(left_out, shown);
    return shown;
}

// The layers by pixel. `luminance`: the cleaned one, by pixel.
std::vector<ColourPlanes> layers_by_pixel(const CleanSurfaces& c, const Plane& luminance) {
    std::vector<ColourPlanes> layers(c.layers.size());
    for (size_t l = 0; l < layers.size(); ++l) {
        for (size_t i = 0; i < 3; ++i) {
            layers[l][i] = c.surfaces.to_pixels(c.layers[l][i], i, c.measured[l][i]);
        }
    }
    set_luminance(luminance, layers);
    return layers;
}

}  // namespace

CleanFrame clean_film(const Film& film,
                      const SeenPoints& seen,
                      double white_luminance,
                      bool with_layers) {
    constexpr size_t kLuminance = SurfaceLight::kLuminance;
    const CleanSurfaces c = clean_surfaces(film, seen, white_luminance, with_layers);
    const SurfaceLight& surfaces = c.surfaces;
    const Plane light = sure_luminance(c);
    const Plane noise =
        surfaces.to_pixels(c.guides.brightness.noise.front(), kLuminance, surfaces.noise());
    const std::vector<ColourPlanes> layers = layers_by_pixel(c, light);
    CleanFrame frame{film.width(), film.height(), xyz_of(layers.front()), {}, {}};
    frame.luminance_stderr =
        estimate_error({surfaces.luminance(), surfaces.noise()}, {light, noise}).values;
    for (size_t l = 1; l < layers.size(); ++l) frame.layers.push_back(xyz_of(layers[l]));
    return frame;
}

CoarseLight clean_coarse_light(const Film& film, const SeenPoints& seen, double white_luminance) {
    constexpr size_t kLuminance = SurfaceLight::kLuminance;
    const CleanSurfaces c = clean_surfaces(film, seen, white_luminance, false);
    const Plane& luminance = c.guides.brightness.light.front();
    CoarseLight light;
    light.on_surfaces = c.layers.front();
    light.luminance_on_surfaces = luminance;
    light.held = c.measured.front();
    for (Plane& channel : light.held) {
        for_each_pixel(channel, [&](size_t i) { channel[i] *= c.surfaces.shown()[i]; });
    }
    light.by_pixel =
        layers_by_pixel(c, c.surfaces.to_pixels(luminance, kLuminance, c.surfaces.luminance()))
            .front();
    for (size_t k = 0; k < 3; ++k) {
        Plane& channel = light.by_pixel[k];
        for_each_pixel(channel, [&](size_t i) { channel[i] -= light.held[k][i]; });
    }
    return light;
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
