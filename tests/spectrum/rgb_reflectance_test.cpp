#include "spectrum/rgb_reflectance.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "spectrum/illuminants.h"
#include "spectrum/observer.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

Rgb rgb_under_d65(const Curve& reflectance) {
    const Curve light = daylight_d65();
    return linear_rec709_from_xyz(integrate_xyz(reflectance * light) / integrate_xyz(light).y);
}

template <typename Check>
void for_each_colour(Check check) {
    for (int r = 0; r < 6; ++r) {
        for (int g = 0; g < 6; ++g) {
            for (int b = 0; b < 6; ++b) check(Rgb(r, g, b) / 5.0F);
        }
    }
}

}  // namespace

TEST_CASE("a colour comes back from its reflectance under D65") {
    // Exact except for floats: the matrices leave 1e-6 of rounding.
    for_each_colour([](const Rgb& rgb) {
        const Rgb error = rgb_under_d65(reflectance_curve(rgb)) - rgb;
        CHECK(std::max({std::abs(error.x), std::abs(error.y), std::abs(error.z)}) < 1e-6F);
    });
}

TEST_CASE("a reflectance never leaves 0 to 1") {
    // The sum of the three curves is 1 to the rounding of floats: two units in the last place.
    for_each_colour([](const Rgb& rgb) {
        const Curve curve = reflectance_curve(rgb);
        float low = 1;
        float high = 0;
        for (int i = 0; i < Curve::kSize; ++i) {
            low = std::min(low, curve[i]);
            high = std::max(high, curve[i]);
        }
        CHECK(low >= 0);
        CHECK(high <= 1 + 2.4e-7F);
    });
}

TEST_CASE("the three curves sum to one and none is negative") {
    const RgbBasis& basis = rgb_basis();
    for (int i = 0; i < Curve::kSize; ++i) {
        CHECK(std::min({basis.r[i], basis.g[i], basis.b[i]}) > 0.004F);  // 0.0045 measured
        CHECK(basis.r[i] + basis.g[i] + basis.b[i] == doctest::Approx(1.0).epsilon(3e-7));
    }
}

TEST_CASE("grey is flat") {
    const Curve grey = reflectance_curve(Rgb(0.18F));
    for (int i = 0; i < Curve::kSize; ++i) CHECK(grey[i] == doctest::Approx(0.18).epsilon(1e-6));
}

TEST_CASE("the correction to our integrator is small") {
    // Values of the published table (doi 10.2312/SR.20191216) at 450, 550 and 610 nm. Linear
    // interpolation of 5 nm steps costs 1e-3, which the correction restores.
    const RgbBasis& basis = rgb_basis();
    CHECK(std::abs(basis.b.at(450.0F) - 0.95703) < 1.1e-3);
    CHECK(std::abs(basis.g.at(550.0F) - 0.97335) < 1.1e-3);
    CHECK(std::abs(basis.r.at(610.0F) - 0.95819) < 1.1e-3);
}

TEST_CASE("the sampled basis gives a colour's curve at the pass's wavelengths") {
    const Wavelengths wavelengths = make_pass_wavelengths(3, 5);
    const RgbBasisSample sample = sample_rgb_basis(wavelengths);
    const Rgb rgb(0.8F, 0.3F, 0.05F);
    const Spectrum lifted = sample.lift(rgb);
    const Spectrum expected = reflectance_curve(rgb).at(wavelengths);
    for (int j = 0; j < kSpectrumSize; ++j) {
        CHECK(lifted[j] == doctest::Approx(expected[j]).epsilon(1e-6));
    }
}

}  // namespace dapple
