// The dimming law (E24): its ends, its inverse, and the efficacy of blackbodies that it uses.
#include "spectrum/tungsten.h"

#include <doctest/doctest.h>

#include <cmath>

#include "spectrum/chromaticity.h"
#include "spectrum/reference_table.h"

namespace dapple {

TEST_CASE("an undimmed tungsten lamp is itself") {
    for (const double cct_k : {2700.0, 3200.0, 3400.0}) {
        CHECK(dim_tungsten(cct_k, 1).cct_k == cct_k);
        CHECK(dim_tungsten(cct_k, 1).relative_voltage == 1);
        CHECK(dimmed_tungsten_light(cct_k, 1) == doctest::Approx(1).epsilon(1e-12));
    }
}

TEST_CASE("the voltage found for a share of the light gives that share") {
    for (const double cct_k : {2700.0, 3200.0, 3600.0}) {
        for (const double share : {0.9, 0.5, 0.25, 0.125, 0.01, 1e-4}) {
            CAPTURE(cct_k);
            CAPTURE(share);
            const DimmedTungsten lamp = dim_tungsten(cct_k, share);
            // v is found to 1e-9; at these voltages the light grows with at most about its tenth
            // power. The tabulated spectra are floats, 1e-7.
            CHECK(dimmed_tungsten_light(cct_k, lamp.relative_voltage) ==
                  doctest::Approx(share).epsilon(1e-6));
            CHECK(lamp.cct_k == dimmed_tungsten_cct(cct_k, lamp.relative_voltage));
        }
    }
}

TEST_CASE("a tungsten lamp gets warmer all the way down, to the end of the locus at most") {
    double warmer = 3200;
    for (double share = 0.99; share > 1e-9; share *= 0.7) {
        const double cct_k = dim_tungsten(3200, share).cct_k;
        CHECK(cct_k < warmer);
        warmer = cct_k;
    }
    CHECK(dim_tungsten(3200, 0).cct_k == doctest::Approx(kMinCct).epsilon(1e-6));
}

TEST_CASE("the luminous efficacy of blackbodies is the tabulated one") {
    ReferenceTable table = read_reference_table("blackbody_luminous_efficacy.csv");
    if (table.empty()) return;
    for (size_t i = 0; i < table["T_K"].size(); ++i) {
        const double printed = table["K_total"][i];
        // Printed to four decimals; the table sums over 360–830 nm, which adds less than 1e-5.
        CHECK(std::abs(blackbody_efficacy(table["T_K"][i]) - printed) < 5.1e-5 + 1e-5 * printed);
    }
}

}  // namespace dapple
