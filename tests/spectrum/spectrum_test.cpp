// Arithmetic on eight wavelengths at once, against the standard library.
#include "spectrum/spectrum.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "base/units.h"

using namespace dapple;

namespace {

Spectrum one_to_eight() {
    Spectrum s;
    for (int i = 0; i < kSpectrumSize; ++i) s[i] = static_cast<float>(i + 1);
    return s;
}

}  // namespace

TEST_CASE("the exponential is right to a few units in the last place") {
    for (double x = -86.9; x < 88; x += 0.0137) {
        const double is = exp(Spectrum(static_cast<float>(x)))[3];
        const double should = std::exp(static_cast<double>(static_cast<float>(x)));
        CAPTURE(x);
        REQUIRE(is == doctest::Approx(should).epsilon(4 * 0x1p-24));
    }
    CHECK(exp(Spectrum(0.0F))[0] == 1.0F);
    CHECK(exp(Spectrum(-1000.0F)).is_black());
    CHECK(exp(Spectrum(-kInfinity)).is_black());
}

TEST_CASE("sum and maximum use all eight values") {
    CHECK(one_to_eight().sum() == 36.0F);
    for (int i = 0; i < kSpectrumSize; ++i) {
        Spectrum s = one_to_eight();
        s[i] = 100.0F;
        CHECK(s.max() == 100.0F);
    }
}

TEST_CASE("black has no light at any wavelength, with either sign of zero") {
    CHECK(Spectrum(0.0F).is_black());
    CHECK(Spectrum(-0.0F).is_black());
    for (int i = 0; i < kSpectrumSize; ++i) {
        Spectrum s(0.0F);
        s[i] = std::numeric_limits<float>::denorm_min();
        CHECK_FALSE(s.is_black());
        s[i] = std::numeric_limits<float>::quiet_NaN();
        CHECK_FALSE(s.is_black());
        CHECK_FALSE(s.is_finite());
    }
}
