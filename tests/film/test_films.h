// Films for the tests of this folder.
#pragma once

#include <vector>

#include "film/film.h"
#include "spectrum/illuminants.h"
#include "spectrum/led.h"
#include "spectrum/source_spectrum.h"

namespace dapple {

inline constexpr double kQuantum = 0x1p-24;  // cd/m²

inline std::vector<LightGroup> warm_and_cool() {
    const LedChannels led = make_led(4300, 0.0);
    return {{"net.warm", led.warm * led.warm_share, 0}, {"net.cool", led.cool * led.cool_share, 0}};
}

// A film of one group, one lumen of D65 per unit. Pass p adds `values[p]` cd/m² to every pixel.
inline Film film_of_passes(int width, int height, const std::vector<float>& values) {
    Film film(width, height, {{"key", normalised_to_lumen(daylight_d65()), 0}}, kQuantum);
    uint32_t pass = 0;
    for (const float value : values) {
        film.begin_pass(make_pass_wavelengths(1, pass++));
        for (int i = 0; i < film.pixels(); ++i) film.add(i, 0, Spectrum(value));
        film.end_pass();
    }
    return film;
}

}  // namespace dapple
