#include "materials/glass_catalogue.h"

#include <doctest/doctest.h>

#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// Fraunhofer lines, nm.
constexpr double kLineF = 486.1327;
constexpr double kLineD = 587.5618;
constexpr double kLineC = 656.2725;

double abbe_number(GlassType glass) {
    return (refractive_index(glass, kLineD) - 1) /
           (refractive_index(glass, kLineF) - refractive_index(glass, kLineC));
}

}  // namespace

// Polyanskiy 2024, Scientific Data 11, 94; indices and Abbe numbers recomputed from the formulas
// collected there, those of borosilicate and lead crystal agree with their makers' lists.
TEST_CASE("every glass has its listed index and Abbe number") {
    struct Row {
        GlassType glass;
        double nf, nd, nc, abbe;
    };
    for (const Row& row : {Row{GlassType::kSodaLime, 1.52902, 1.52338, 1.52083, 63.97},
                           Row{GlassType::kBorosilicate, 1.47642, 1.47149, 1.46928, 66.04},
                           Row{GlassType::kLeadCrystal, 1.55655, 1.54814, 1.54457, 45.75},
                           Row{GlassType::kSilica, 1.46313, 1.45846, 1.45637, 67.82},
                           Row{GlassType::kAcrylic, 1.49836, 1.49253, 1.49007, 59.37}}) {
        CHECK(std::abs(refractive_index(row.glass, kLineF) - row.nf) < 1e-5);
        CHECK(std::abs(refractive_index(row.glass, kLineD) - row.nd) < 1e-5);
        CHECK(std::abs(refractive_index(row.glass, kLineC) - row.nc) < 1e-5);
        CHECK(std::abs(abbe_number(row.glass) - row.abbe) < 0.01);  // the digits printed
    }
}

// n_d 1.470 and Abbe number 58 of clear paraffin oil, from memory.
TEST_CASE("oil has a little lower index than glass, and air bends nothing") {
    CHECK(std::abs(refractive_index(GlassType::kOil, kLineD) - 1.4700) < 1e-4);
    CHECK(std::abs(abbe_number(GlassType::kOil) - 58) < 0.1);
    CHECK(refractive_index(GlassType::kAir, kLineD) == 1);
    CHECK(absorption_curve(GlassType::kAir, Tint::kClear).at(550) == 0);
}

// Daimon and Masumura 2007 at 20 °C, against vacuum; the air's 1.000272 from memory.
TEST_CASE("water has the measured index, relative to air") {
    const double rows[][2] = {{404.7, 1.34312}, {546.1, 1.33483}, {656.3, 1.33151}, {700, 1.33052}};
    for (const auto& [nm, vacuum_index] : rows) {
        const double n = refractive_index(GlassType::kWater, nm);
        CHECK(std::abs(n * 1.000272 - vacuum_index) < 1e-5);
    }
    // 1.33299 at 20 °C and 589.3 nm against air (Tilton and Taylor 1938, from memory).
    CHECK(std::abs(refractive_index(GlassType::kWater, 589.3) - 1.33299) < 2e-5);
}

TEST_CASE("index falls steadily from violet to red and is smooth where the formula is continued") {
    for (const GlassType glass : {GlassType::kSodaLime,
                                  GlassType::kBorosilicate,
                                  GlassType::kLeadCrystal,
                                  GlassType::kSilica,
                                  GlassType::kAcrylic,
                                  GlassType::kWater}) {
        const Curve n = refractive_index_curve(glass);
        for (int i = 1; i < Curve::kSize; ++i) {
            REQUIRE(n[i] < n[i - 1] + 1e-7F);
            REQUIRE(n[i - 1] - n[i] < 5e-4F);
        }
    }
}

// Rubin 1985: internal transmittance of 6 mm of clear window glass from its k.
TEST_CASE("6 mm of clear window glass transmit as its published absorption says") {
    const Curve alpha = window_absorption_curve(Tint::kClear);
    const double rows[][2] = {{450, 0.96826}, {550, 0.97029}, {650, 0.90746}};
    for (const auto& [nm, internal] : rows) {
        const Spectrum t = transmittance(Spectrum(alpha.at(static_cast<float>(nm))), 0.006F);
        CHECK(std::abs(t[0] - internal) < 2e-5);
    }
}

// Hale and Querry 1973.
TEST_CASE("water absorbs red over metres") {
    const Curve alpha = absorption_curve(GlassType::kWater, Tint::kClear);
    CHECK(std::abs(alpha.at(500) - 0.025) < 5e-4);
    CHECK(std::abs(alpha.at(700) - 0.601) < 5e-4);
}

// The model's own figures, recomputed outside this program: they guard the tables against slips.
TEST_CASE("3 mm of tinted glass have the model's transmittance and colour under D65") {
    struct Row {
        Tint tint;
        double luminous, x, y;
    };
    for (const Row& row : {Row{Tint::kAmber, 0.523, 0.495, 0.466},
                           Row{Tint::kGreen, 0.540, 0.318, 0.443},
                           Row{Tint::kCobalt, 0.163, 0.173, 0.135}}) {
        const Curve alpha = absorption_curve(GlassType::kSodaLime, row.tint);
        const Curve inside([&](double nm) {
            return std::exp(-0.003 * static_cast<double>(alpha.at(static_cast<float>(nm))));
        });
        const Xyz d65 = integrate_xyz(daylight_d65());
        const Xyz seen = integrate_xyz(daylight_d65() * inside);
        // The method of interpolating a 10 nm table changes these by up to 1.5e-3.
        CHECK(std::abs(seen.y / d65.y - row.luminous) < 2e-3);
        CHECK(std::abs(xy_of(seen).x - row.x) < 2e-3);
        CHECK(std::abs(xy_of(seen).y - row.y) < 2e-3);
    }
}

TEST_CASE("2 mm of amber keep ultraviolet and blue below a tenth, as container rules require") {
    const Curve alpha = absorption_curve(GlassType::kSodaLime, Tint::kAmber);
    for (float nm = 380; nm <= 450; nm += 5) CHECK(std::exp(-0.002F * alpha.at(nm)) < 0.1F);
}

}  // namespace dapple
