#include "spectrum/packed_spectrum.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "base/random.h"

using namespace dapple;

TEST_CASE("an unpacked spectrum is the original to 8e-6 of its largest value") {
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int i = 0; i < 1000; ++i) {
        Spectrum s;
        // From dim to bright, over thirty powers of ten.
        const float scale = std::pow(10.0F, 30 * random.next() - 15);
        for (int j = 0; j < kSpectrumSize; ++j) s[j] = scale * random.next();
        const Spectrum again = PackedSpectrum(s).unpacked();
        for (int j = 0; j < kSpectrumSize; ++j) {
            CHECK(std::abs(again[j] - s[j]) <= 8e-6F * s.max());
        }
    }
}

TEST_CASE("a single wavelength is kept as exactly, and black stays black") {
    Spectrum s(0.0F);
    s[3] = 0.7F;
    const Spectrum again = PackedSpectrum(s).unpacked();
    CHECK(again[3] == doctest::Approx(0.7F).epsilon(1e-6));
    CHECK(again[2] == 0);
    CHECK(PackedSpectrum(Spectrum(0.0F)).unpacked().is_black());
    CHECK(PackedSpectrum(Spectrum(1e-39F)).unpacked().is_black());
    CHECK(PackedSpectrum(Spectrum(std::numeric_limits<float>::infinity())).unpacked().is_black());
}
