#include "spectrum/led.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"
#include "spectrum/reference_table.h"
#include "spectrum/source_spectrum.h"

namespace dapple {

namespace {

Curve mix(const LedChannels& led) {
    return led.warm * led.warm_share + led.cool * led.cool_share;
}

struct AskedLed {
    double cct_k, duv;
    LedChannels led;
};

// A grid over all whites that a set file may request from an LED fixture, made once.
const std::vector<AskedLed>& asked_leds() {
    static const std::vector<AskedLed> leds = [] {
        std::vector<AskedLed> all;
        for (double cct_k = kLedMinCct; cct_k <= kLedMaxCct; cct_k += 250) {
            for (const double duv : {-kLedMaxDuv, -0.003, 0.0, 0.003, kLedMaxDuv}) {
                all.push_back({cct_k, duv, make_led(cct_k, duv)});
            }
        }
        return all;
    }();
    return leds;
}

template <typename Check>
void for_each_white(Check check) {
    for (const AskedLed& asked : asked_leds()) {
        CAPTURE(asked.cct_k);
        CAPTURE(asked.duv);
        check(asked.led, asked.cct_k, asked.duv);
    }
}

float peak(const Curve& c) {
    float highest = 0;
    for (int i = 0; i < Curve::kSize; ++i) highest = std::max(highest, c[i]);
    return highest;
}

// Root mean square difference of two spectra of equal lumens, as a part of the second one's peak.
double rms_difference(const Curve& a, const Curve& b) {
    const Curve left = normalised_to_lumen(a);
    const Curve right = normalised_to_lumen(b);
    double squares = 0;
    for (int i = 0; i < Curve::kSize; ++i) squares += std::pow(left[i] - right[i], 2);
    return std::sqrt(squares / Curve::kSize) / peak(right);
}

double lumens_per_watt(const Curve& c) {
    return luminous_flux(c) / integrate(c, Curve(1.0F));
}

}  // namespace

TEST_CASE("an LED has the requested CCT and Duv") {
    // The solution is exact; the error is the rounding of curves to floats (4e-4 K measured).
    for_each_white([](const LedChannels& led, double cct_k, double duv) {
        const CctDuv at = cct_duv_of(integrate_xyz(mix(led)));
        CHECK(std::abs(at.cct_k - cct_k) < 5e-3);
        CHECK(std::abs(at.duv - duv) < 1e-7);
    });
}

TEST_CASE("each channel has one lumen and the shares sum to one") {
    for_each_white([](const LedChannels& led, double, double) {
        CHECK(luminous_flux(led.warm) == doctest::Approx(1.0).epsilon(1e-7));  // floats
        CHECK(luminous_flux(led.cool) == doctest::Approx(1.0).epsilon(1e-7));
        CHECK(led.warm_share + led.cool_share == doctest::Approx(1.0).epsilon(1e-15));
    });
}

TEST_CASE("no channel has negative power anywhere") {
    for_each_white([](const LedChannels& led, double, double) {
        float least = 1;
        for (int i = 0; i < Curve::kSize; ++i) least = std::min({least, led.warm[i], led.cool[i]});
        CHECK(least >= 0);
    });
    // Beyond the limits too, where the white itself is out of reach.
    const LedChannels green = make_led(4000, 0.03);
    for (int i = 0; i < Curve::kSize; ++i) CHECK(std::min(green.warm[i], green.cool[i]) >= 0);
}

TEST_CASE("both channels give light between their own temperatures, one of them outside") {
    for_each_white([](const LedChannels& led, double cct_k, double) {
        if (cct_k > kWarmChannelCct && cct_k < kCoolChannelCct) {
            CHECK(led.warm_share > 0);
            CHECK(led.cool_share > 0);
        } else {
            CHECK(std::max(led.warm_share, led.cool_share) == 1.0);
            CHECK((led.warm_share > 0) == (cct_k <= kWarmChannelCct));
        }
    });
}

TEST_CASE("a cooler white takes more of the cool channel, without a step") {
    double before = 0;
    for (double cct_k = 2650; cct_k <= 6550; cct_k += 50) {
        const double share = make_led(cct_k, 0).cool_share;
        CHECK(share >= before);
        // In mired the share grows by about 1 over 216; 50 K are up to 7 mired.
        CHECK(share - before < 0.05);
        before = share;
    }
    CHECK(before == 1.0);
}

TEST_CASE("the channels keep their temperatures between 2700 and 6500 K") {
    for (double cct_k = 2700; cct_k <= 6500; cct_k += 380) {
        const LedChannels led = make_led(cct_k, 0.001);
        const CctDuv warm = cct_duv_of(integrate_xyz(led.warm));
        const CctDuv cool = cct_duv_of(integrate_xyz(led.cool));
        CHECK(std::abs(warm.cct_k - kWarmChannelCct) < 5e-3);  // floats
        CHECK(std::abs(cool.cct_k - kCoolChannelCct) < 5e-3);
        CHECK(std::abs(warm.duv - cool.duv) < 1e-7);
        // A straight mixture of these two is at most 0.0067 below them, so the channels are above.
        CHECK(warm.duv > 0.001 - 1e-7);
        CHECK(warm.duv < 0.001 + 0.007);
    }
}

TEST_CASE("an LED has the luminous efficacy of the CIE LED illuminants") {
    // LED-B1 312 lm/W at 2733 K, LED-B5 305 lm/W at 6598 K (CIE 015:2018 tables). The fits lack
    // part of the tables' tails beyond 680 nm: 1 %.
    CHECK(lumens_per_watt(mix(make_led(2733, -0.0007))) == doctest::Approx(312).epsilon(0.01));
    CHECK(lumens_per_watt(mix(make_led(6598, 0.0009))) == doctest::Approx(305).epsilon(0.01));
}

TEST_CASE("an LED's spectrum resembles CIE LED-B1 when warm and LED-B5 when cool") {
    ReferenceTable table = read_reference_table("cie_LED_illuminants_1nm.csv");
    if (table.empty()) return;
    // Three lobes cannot follow every bend: the fits differ by 1.1 % and 1.5 % of the peak.
    const Curve b1(table["LED-B1"], 380.0, 1.0);
    const Curve b5(table["LED-B5"], 380.0, 1.0);
    CHECK(rms_difference(mix(make_led(2733, -0.0007)), b1) < 0.013);
    CHECK(rms_difference(mix(make_led(6598, 0.0009)), b5) < 0.017);
    // For comparison: the two published spectra differ from each other by a quarter.
    CHECK(rms_difference(b1, b5) > 0.15);
}

}  // namespace dapple
