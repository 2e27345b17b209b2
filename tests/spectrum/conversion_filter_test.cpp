// The ideal conversion filter against figures computed outside this program from the CIE tables.
#include "spectrum/conversion_filter.h"

#include <doctest/doctest.h>

#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

using namespace dapple;

TEST_CASE("a conversion filter turns one Planckian light into another, as Wien's law has it") {
    // Computed from 1 nm CIE tables with this formula: 3200 to 5600 K, -133.9 mired, gives 5647 K,
    // Duv +0.0002, Y 0.251; the reverse filter 3182 K and 0.98 stop.
    const struct {
        double from_k, strength, cct_k, passes;
    } rows[] = {{3200, 1e6 / 5600 - 1e6 / 3200, 5647, 0.251},
                {5600, 1e6 / 3200 - 1e6 / 5600, 3182, 0.507}};
    for (const auto& row : rows) {
        const Curve light = planck(row.from_k);
        const Curve filtered = light * conversion_filter(row.strength);
        const CctDuv colour = cct_duv_of(integrate_xyz(filtered));
        // Printed to 1 K; our filter passes everything below 400 nm, which gives 1 K less.
        CHECK(std::abs(colour.cct_k - row.cct_k) < 1.5);
        CHECK(std::abs(colour.duv) < 3e-4);
        CHECK(std::abs(luminous_flux(filtered) / luminous_flux(light) - row.passes) < 1e-3);
    }
}

TEST_CASE("a conversion filter passes all light at some wavelength and more than all at none") {
    for (const double strength : {-400.0, -35.0, 35.0, 400.0}) {
        const Curve filter = conversion_filter(strength);
        float most = 0;
        for (int i = 0; i < Curve::kSize; ++i) {
            CHECK(filter[i] >= 0);
            most = std::max(most, filter[i]);
        }
        CHECK(most == 1);
    }
}

TEST_CASE("no shift is no filter") {
    CHECK(conversion_strength(planck(3200), 0) == 0);
    CHECK(luminous_flux(equal_energy() * conversion_filter(0)) == luminous_flux(equal_energy()));
}
