// Light that glass has dispersed, in parts of neighbouring wavelengths.
#include "transport/wavelength_parts.h"

#include <doctest/doctest.h>

#include <cmath>

#include "spectrum/wavelengths.h"

using namespace dapple;

TEST_CASE("the parts of dispersed light add up to it, near the places of its wavelengths") {
    const WavelengthCoordinate c(make_pass_wavelengths(1, 3));
    Spectrum light;
    for (int j = 0; j < kSpectrumSize; ++j) light[j] = 1.0F + static_cast<float>(j);
    for (int hero = 0; hero < kSpectrumSize; ++hero) {
        for (const int parts : {1, 2, 4, 8}) {
            Spectrum sum(0.0F);
            float most_off = 0;
            visit_wavelength_parts(c, hero, parts, light, [&](const Spectrum& part, float moved) {
                sum += part;
                for (int j = 0; j < kSpectrumSize; ++j) {
                    if (part[j] == 0) continue;
                    most_off = std::max(most_off, std::abs(c[j] - c[hero] - moved));
                }
            });
            for (int j = 0; j < kSpectrumSize; ++j) CHECK(sum[j] == light[j]);
            // Neighbours are not quite a seventh of the span apart: they are evenly apart in nm.
            const float usual = 0.5F * static_cast<float>(kSpectrumSize / parts - 1) * c.span / 7;
            CHECK(most_off <= 2 * usual + 1e-6F);
        }
    }
}

TEST_CASE("light is cut into no more parts than it needs") {
    CHECK(wavelength_parts(0, 1) == 1);
    CHECK(wavelength_parts(1.9F, 1) == 1);
    CHECK(wavelength_parts(2.1F, 1) == 2);
    CHECK(wavelength_parts(5, 1) == 4);
    CHECK(wavelength_parts(100, 1) == 8);
}
