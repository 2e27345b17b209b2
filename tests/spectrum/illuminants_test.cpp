#include "spectrum/illuminants.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/units.h"
#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"
#include "spectrum/reference_table.h"

namespace dapple {

namespace {

// The names of these illuminants are temperatures by an older radiation constant.
double nominal(double kelvin) {
    return kelvin * 1.4388 / 1.4380;
}

void check_xy(const Curve& light, double x, double y, double tolerance) {
    const Xy xy = xy_of(integrate_xyz(light));
    CHECK(std::abs(xy.x - x) < tolerance);
    CHECK(std::abs(xy.y - y) < tolerance);
}

}  // namespace

TEST_CASE("standard illuminants have their published chromaticities") {
    // CIE 015:2018 table 11 to five decimals (A from the 1 nm table). Our range ends at 380 and
    // 780 nm, which moves xy by up to 4e-5 (see the header); the published D50 and D55 use tables
    // with M1, M2 rounded once more.
    check_xy(illuminant_a(), 0.44758, 0.40745, 3e-5);
    check_xy(daylight(nominal(5000)), 0.34567, 0.35850, 5e-5);
    check_xy(daylight(nominal(5500)), 0.33243, 0.34744, 5e-5);
    check_xy(daylight_d65(), 0.31272, 0.32903, 5e-5);
    check_xy(daylight(nominal(7500)), 0.29903, 0.31488, 5e-5);
    check_xy(equal_energy(), 1.0 / 3.0, 1.0 / 3.0, 2e-5);
}

TEST_CASE("A and D65 have their published tristimulus values") {
    // X, Z at Y = 100: A 109.850, 35.585; D65 95.047, 108.883 (CIE 15, ASTM E308). The cut at 380
    // and 780 nm takes 0.004 of Z of A and 0.022 of Z of D65.
    const auto scaled = [](const Curve& light) {
        const Xyz xyz = integrate_xyz(light);
        return xyz * (100.0 / xyz.y);
    };
    CHECK(std::abs(scaled(illuminant_a()).x - 109.850) < 0.005);
    CHECK(std::abs(scaled(illuminant_a()).z - 35.585) < 0.005);
    CHECK(std::abs(scaled(daylight_d65()).x - 95.047) < 0.006);
    CHECK(std::abs(scaled(daylight_d65()).z - 108.883) < 0.023);
}

TEST_CASE("A and D65 are the tabulated illuminants at every nanometre") {
    ReferenceTable d65 = read_reference_table("cie_D65_5nm.csv");
    ReferenceTable a = read_reference_table("cie_A_1nm.csv");
    if (d65.empty() || a.empty()) return;
    const Curve d65_table(d65["D65"], d65["nm"].front(), 5.0);
    const Curve a_table(a["A"], a["nm"].front(), 1.0);
    for (int i = 0; i < Curve::kSize; ++i) {
        // D65 is printed to 1e-4 of 100, from components with one decimal: 0.00085 of 100 was
        // measured for the stored copy. A is printed to six digits.
        CHECK(std::abs(100 * daylight_d65()[i] - d65_table[i]) < 0.001);
        CHECK(illuminant_a()[i] * 100 == doctest::Approx(a_table[i]).epsilon(1e-5));
    }
}

TEST_CASE("daylight follows the CIE daylight locus") {
    // The locus polynomials computed by hand. M1 and M2, rounded to 0.001, shift xy by up to 2e-5
    // here, the cut at 380 and 780 nm by 3e-5, and one-decimal components by the rest.
    check_xy(daylight(4000), 0.38234, 0.38377, 1e-4);
    check_xy(daylight(5000), 0.34574, 0.35867, 1.5e-4);
    check_xy(daylight(5600), 0.33016, 0.34555, 1.5e-4);
    check_xy(daylight(6000), 0.32169, 0.33780, 1.5e-4);
    check_xy(daylight(7500), 0.29909, 0.31503, 1.5e-4);
    check_xy(daylight(10000), 0.27880, 0.29197, 1.5e-4);
}

TEST_CASE("daylight has the requested correlated colour temperature") {
    // The locus was fitted (Judd et al. 1964) to measured daylight, not to the temperatures: the
    // formula is good to 2 parts in 1000, and 25000 K is its far end.
    for (double kelvin = 4000; kelvin <= 25000; kelvin += 500) {
        const CctDuv at = cct_duv_of(integrate_xyz(daylight(kelvin)));
        CHECK(at.cct_k == doctest::Approx(kelvin).epsilon(0.0025));
        CHECK(at.duv > 0.0025);
        CHECK(at.duv < 0.0035);
    }
}

TEST_CASE("the luminous efficacy of a blackbody is the published one") {
    // K = 683 ∫ V L dλ / (σ T⁴/π), L = 2hc²/λ⁵ / (exp(c2/λT) - 1). Figures computed from CIE
    // 018:2019 over 360–830 nm; less than 1e-5 of the light is outside 380–780 nm. Known
    // landmarks: 95 lm/W near 6600 K is the highest of all blackbodies.
    constexpr double kHc2 = 2 * 6.62607015e-34 * 299792458.0 * 299792458.0;
    constexpr double kStefanBoltzmann = 5.670374419e-8;
    const auto efficacy = [&](double t) {
        const double at_560 = kHc2 / std::pow(560e-9, 5) / std::expm1(0.01438776877 / (560e-9 * t));
        const double radiance = kStefanBoltzmann * std::pow(t, 4) / kPi;
        return luminous_flux(planck(t)) * 1e-9 * at_560 / radiance;
    };
    CHECK(efficacy(2000) == doctest::Approx(1.6059).epsilon(1e-4));
    CHECK(std::abs(efficacy(2700) - 12.36) < 0.005);  // printed to two decimals, as below
    CHECK(std::abs(efficacy(2856) - 16.45) < 0.005);
    CHECK(std::abs(efficacy(3200) - 27.09) < 0.005);
    CHECK(std::abs(efficacy(4000) - 54.71) < 0.005);
    CHECK(std::abs(efficacy(5600) - 90.37) < 0.005);
    CHECK(std::abs(efficacy(6628) - 95.43) < 0.005);
    CHECK(efficacy(6500) < efficacy(6628));
    CHECK(efficacy(6750) < efficacy(6628));
}

TEST_CASE("lumens per visible watt of blackbodies and D65 are the published ones") {
    // 380–780 nm only, 1 nm sums; printed to 0.1 lm/W.
    const auto per_watt = [](const Curve& light) {
        return luminous_flux(light) / integrate(light, Curve(1.0F));
    };
    CHECK(std::abs(per_watt(planck(3200)) - 170.9) < 0.05);
    CHECK(std::abs(per_watt(planck(5600)) - 197.9) < 0.05);
    CHECK(std::abs(per_watt(illuminant_a()) - 155.8) < 0.05);
    CHECK(std::abs(per_watt(daylight_d65()) - 204.8) < 0.05);
}

TEST_CASE("no light has negative power, and each is 1 at 560 nm") {
    std::vector<Curve> lights = {illuminant_a(), equal_energy(), daylight_d65()};
    for (double kelvin = 1000; kelvin <= 25000; kelvin += 1000) {
        lights.push_back(planck(kelvin));
        if (kelvin >= 4000) lights.push_back(daylight(kelvin));
    }
    for (const Curve& light : lights) {
        CHECK(light.at(560.0F) == doctest::Approx(1.0).epsilon(1e-6));
        float least = 1;
        for (int i = 0; i < Curve::kSize; ++i) least = std::min(least, light[i]);
        CHECK(least > 0);
    }
}

}  // namespace dapple
