#include "spectrum/wavelengths.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "spectrum/illuminants.h"
#include "spectrum/led.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// The share of the density below `nm`, by the closed form of its integral.
double cumulative(double nm) {
    constexpr double kLow = -0.8136044;  // tanh(0.0072 (380 - 538))
    constexpr double kHigh = 0.9405044;  // tanh(0.0072 (780 - 538))
    return (std::tanh(0.0072 * (nm - 538.0)) - kLow) / (kHigh - kLow);
}

// XYZ by the wavelengths of the first `passes` passes.
Xyz estimate_xyz(const Curve& light, uint32_t passes) {
    const Observer& o = cie_1931();
    Xyz sum(0.0);
    for (uint32_t pass = 0; pass < passes; ++pass) {
        const Wavelengths w = make_pass_wavelengths(1, pass);
        for (int j = 0; j < kSpectrumSize; ++j) {
            const double nm = w.nm[j];
            const auto at = static_cast<float>(nm);
            sum += Xyz(o.x.at(at), o.y.at(at), o.z.at(at)) *
                   static_cast<double>(light.at(at) / w.pdf[j]);
        }
    }
    return sum / (static_cast<double>(passes) * kSpectrumSize);
}

// The integral of the curves as interpolated between the nanometres (midpoints of 0.05 nm).
Xyz fine_xyz(const Curve& light) {
    const Observer& o = cie_1931();
    Xyz sum(0.0);
    for (int i = 0; i < 8000; ++i) {
        const auto at = static_cast<float>(380.0 + 0.05 * (i + 0.5));
        sum += Xyz(o.x.at(at), o.y.at(at), o.z.at(at)) * (0.05 * light.at(at));
    }
    return sum;
}

double worst_relative_difference(const Xyz& a, const Xyz& b) {
    const Xyz difference = glm::abs(a - b) / b;
    return std::max({difference.x, difference.y, difference.z});
}

}  // namespace

TEST_CASE("the wavelength density integrates to one over 380 to 780 nm") {
    double integral = 0;
    constexpr int kSteps = 40000;
    for (int i = 0; i < kSteps; ++i) {
        integral += pdf_visible_wavelength(380.0 + 400.0 * (i + 0.5) / kSteps) * 400.0 / kSteps;
    }
    CHECK(integral == doctest::Approx(1.0).epsilon(1e-8));  // midpoint rule, h = 0.01 nm
    CHECK(pdf_visible_wavelength(379.9) == 0);
    CHECK(pdf_visible_wavelength(780.1) == 0);
    // Radziszewski et al. 2009, renormalised from 360–830 nm to 380–780 nm.
    CHECK(pdf_visible_wavelength(538.0) == doctest::Approx(0.0041046487).epsilon(1e-7));
}

TEST_CASE("wavelengths are drawn by their density") {
    CHECK(sample_visible_wavelength(0.0) == doctest::Approx(380.0).epsilon(1e-9));
    CHECK(sample_visible_wavelength(1.0) == doctest::Approx(780.0).epsilon(1e-9));
    for (double u = 0.005; u < 1; u += 0.005) {
        // The constants of `cumulative` are printed to seven digits.
        CHECK(cumulative(sample_visible_wavelength(u)) == doctest::Approx(u).epsilon(1e-5));
    }
}

TEST_CASE("each of a pass's eight wavelengths falls into its own eighth of the density") {
    for (uint32_t pass = 0; pass < 200; ++pass) {
        const Wavelengths w = make_pass_wavelengths(7, pass);
        std::vector<int> found(kSpectrumSize, 0);
        for (int j = 0; j < kSpectrumSize; ++j) {
            ++found[static_cast<size_t>(cumulative(w.nm[j]) * kSpectrumSize)];
            CHECK(w.pdf[j] == doctest::Approx(pdf_visible_wavelength(w.nm[j])).epsilon(1e-5));
        }
        for (const int count : found) CHECK(count == 1);
    }
}

TEST_CASE("after any number of passes the wavelengths leave no large gap") {
    // Multiples of the golden ratio: by the three-distance theorem (Sos 1958) the largest gap of
    // N of them is at most (1 + 2/sqrt(5))/N = 1.894/N of the interval, the least 0.447/N.
    for (const uint32_t passes : {1U, 2U, 3U, 5U, 8U, 13U, 50U, 100U, 500U}) {
        CAPTURE(passes);
        std::vector<double> u;
        for (uint32_t pass = 0; pass < passes; ++pass) {
            const Wavelengths w = make_pass_wavelengths(11, pass);
            for (int j = 0; j < kSpectrumSize; ++j) u.push_back(cumulative(w.nm[j]));
        }
        std::sort(u.begin(), u.end());
        const double n = 8.0 * passes;
        double largest = u.front() + 1 - u.back();
        double least = largest;
        for (size_t i = 1; i < u.size(); ++i) {
            largest = std::max(largest, u[i] - u[i - 1]);
            least = std::min(least, u[i] - u[i - 1]);
        }
        CHECK(largest < 1.92 / n);  // float wavelengths: 1e-6 of the interval, 0.4 % of a gap
        CHECK(least > 0.43 / n);
    }
}

TEST_CASE("the same seed and pass have the same wavelengths, another seed has others") {
    const Wavelengths a = make_pass_wavelengths(5, 17);
    const Wavelengths b = make_pass_wavelengths(5, 17);
    const Wavelengths c = make_pass_wavelengths(6, 17);
    for (int j = 0; j < kSpectrumSize; ++j) {
        CHECK(a.nm[j] == b.nm[j]);
        CHECK(a.nm[j] != c.nm[j]);
    }
}

TEST_CASE("XYZ summed over the passes' wavelengths approaches the exact XYZ as one over passes") {
    // Error · passes stays below the variation of S x̄ / p over one eighth of the density: measured
    // 0.05 for smooth lights, 0.5 for an LED with its narrow blue peak. With random
    // wavelengths the error would fall as 1/sqrt(passes), 64 times more at 4096.
    const LedChannels led = make_led(4300, 0.0);
    struct Light {
        Curve curve;
        double limit;
    };
    for (const Light& light : {Light{daylight_d65(), 0.06},
                               Light{planck(3200), 0.06},
                               Light{led.warm * led.warm_share + led.cool * led.cool_share, 0.6}}) {
        const Xyz exact = fine_xyz(light.curve);
        for (const uint32_t passes : {1U, 4U, 16U, 64U, 256U, 1024U, 4096U}) {
            CAPTURE(passes);
            const Xyz estimate = estimate_xyz(light.curve, passes);
            CHECK(worst_relative_difference(estimate, exact) < light.limit / passes);
        }
    }
}

TEST_CASE("the 1 nm sum and the integral of the lines between agree") {
    // Σ ΔS Δx̄ / 6 per bin: 1.3e-4 of Z under an LED's blue peak, where both curves are steep.
    const LedChannels led = make_led(4300, 0.0);
    const Curve mix = led.warm * led.warm_share + led.cool * led.cool_share;
    CHECK(worst_relative_difference(fine_xyz(mix), integrate_xyz(mix)) < 2e-4);
    const Curve d65 = daylight_d65();
    CHECK(worst_relative_difference(fine_xyz(d65), integrate_xyz(d65)) < 5e-5);
}

}  // namespace dapple
