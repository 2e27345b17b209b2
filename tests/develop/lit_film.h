// Films of known content: a formula gives each pixel its luminance.
#pragma once

#include <functional>

#include "film/film.h"
#include "spectrum/illuminants.h"
#include "spectrum/source_spectrum.h"
#include "spectrum/wavelengths.h"

namespace dapple {

// One lumen of light of the given kind.
inline LightGroup daylight_group(const std::string& name, int fixture, double cct_k) {
    return {name, normalised_to_lumen(daylight(cct_k)), fixture};
}
inline LightGroup tungsten_group(const std::string& name, int fixture, double cct_k) {
    return {name, normalised_to_lumen(planck(cct_k)), fixture};
}

// Luminance of a pixel from one group in one pass, cd/m².
using LuminanceAt = std::function<double(int pixel, int group, int pass)>;

inline Film lit_film(int width,
                     int height,
                     std::vector<LightGroup> groups,
                     int passes,
                     const LuminanceAt& luminance,
                     std::vector<PixelSet> regions = {}) {
    // 2^-30 cd/m²: rounding of the sums is far below every tolerance here.
    Film film(width, height, std::move(groups), 0x1p-30);
    film.set_regions(std::move(regions));
    for (int pass = 0; pass < passes; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
            for (int i = 0; i < film.pixels(); ++i) {
                film.add(i, g, Spectrum(static_cast<float>(luminance(i, g, pass))));
            }
        }
        film.end_pass();
    }
    return film;
}

}  // namespace dapple
