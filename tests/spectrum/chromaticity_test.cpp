#include "spectrum/chromaticity.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "spectrum/illuminants.h"
#include "spectrum/observer.h"
#include "spectrum/reference_table.h"

namespace dapple {

namespace {

// McCamy 1992, Color Res. Appl. 17, 142.
double mccamy_cct(Xy xy) {
    const double n = (xy.x - 0.3320) / (0.1858 - xy.y);
    return 449.0 * n * n * n + 3525.0 * n * n + 6823.3 * n + 5520.33;
}

// Hernandez-Andres, Lee and Romero 1999, Appl. Opt. 38, 5703; 3000 … 50000 K.
double hernandez_andres_cct(Xy xy) {
    const double n = (xy.x - 0.3366) / (xy.y - 0.1735);
    return -949.86315 + 6253.80338 * std::exp(-n / 0.92159) + 28.70599 * std::exp(-n / 0.20039) +
           0.00004 * std::exp(-n / 0.07125);
}

}  // namespace

TEST_CASE("uv and xy convert into each other") {
    const Xy d65{0.3127, 0.3290};
    const Uv uv = uv_1960(d65);
    // u = 4x/(-2x+12y+3), v = 6y/(-2x+12y+3) by hand.
    CHECK(uv.u == doctest::Approx(1.2508 / 6.3226).epsilon(1e-12));
    CHECK(uv.v == doctest::Approx(1.9740 / 6.3226).epsilon(1e-12));
    CHECK(xy_of(uv).x == doctest::Approx(d65.x).epsilon(1e-12));
    CHECK(xy_of(uv).y == doctest::Approx(d65.y).epsilon(1e-12));
    CHECK(xy_of(xyz_of(d65)).y == doctest::Approx(d65.y).epsilon(1e-12));
}

TEST_CASE("the Planckian locus runs through the published points") {
    // Planck's law with the CIE 1931 observer, 360–830 nm, to five decimals. Our cut at 380 and
    // 780 nm loses violet: it moves y by 6e-5 at 6500 K and 8e-5 at 10000 K.
    struct Row {
        double kelvin, x, y;
    };
    const std::vector<Row> rows = {{2000, 0.52668, 0.41330},
                                   {2500, 0.47699, 0.41368},
                                   {2856, 0.44754, 0.40743},
                                   {3200, 0.42336, 0.39895},
                                   {4000, 0.38044, 0.37675},
                                   {5000, 0.34510, 0.35161},
                                   {5600, 0.33020, 0.33908},
                                   {6500, 0.31353, 0.32363},
                                   {8000, 0.29519, 0.30477},
                                   {10000, 0.28063, 0.28829}};
    for (const Row& row : rows) {
        CAPTURE(row.kelvin);
        CHECK(std::abs(planckian_xy(row.kelvin).x - row.x) < 9e-5);
        CHECK(std::abs(planckian_xy(row.kelvin).y - row.y) < 9e-5);
    }
}

TEST_CASE("the Planckian locus is the reference table from 1000 K up") {
    ReferenceTable table = read_reference_table("planckian_locus_1931.csv");
    for (size_t i = 0; i < table["T_K"].size(); ++i) {
        CAPTURE(table["T_K"][i]);
        const Xy xy = planckian_xy(table["T_K"][i]);
        // The same cut: 1.2e-4 in y at 25000 K, 3e-5 in x and y at 1000 K.
        CHECK(std::abs(xy.x - table["x"][i]) < 1.3e-4);
        CHECK(std::abs(xy.y - table["y"][i]) < 1.3e-4);
    }
}

TEST_CASE("a blackbody's colour temperature is its temperature") {
    for (double kelvin = 1000; kelvin <= 25000; kelvin *= 1.07) {
        CAPTURE(kelvin);
        const CctDuv at = cct_duv_of(integrate_xyz(planck(kelvin)));
        CHECK(std::abs(at.cct_k - kelvin) < 0.01);  // floats of the curve: 6e-4 K at 25000 K
        CHECK(std::abs(at.duv) < 1e-8);
    }
}

TEST_CASE("CCT and Duv come back from the chromaticity made of them") {
    // The normal meets the locus once only while Duv is below its radius of curvature, which is
    // above 0.05 everywhere here. 1e-9 of a bisection in mired is 2.5e-5 K at 25000 K.
    for (double kelvin = 1000; kelvin <= 25000; kelvin *= 1.13) {
        for (const double duv : {-0.03, -0.006, 0.0, 0.003, 0.03}) {
            CAPTURE(kelvin);
            CAPTURE(duv);
            const CctDuv at = cct_duv_of(xy_from_cct_duv(kelvin, duv));
            CHECK(std::abs(at.cct_k - kelvin) < 1e-3);
            CHECK(at.duv == doctest::Approx(duv).epsilon(1e-6));
        }
    }
}

TEST_CASE("the nearest point of the locus is nearer than its neighbours") {
    const Xy light{0.3618, 0.3910};
    const Uv uv = uv_1960(light);
    const CctDuv at = cct_duv_of(light);
    const auto distance = [&](double kelvin) {
        const Uv p = planckian_uv(kelvin);
        return std::hypot(uv.u - p.u, uv.v - p.v);
    };
    CHECK(distance(at.cct_k) == doctest::Approx(at.duv).epsilon(1e-9));
    CHECK(distance(at.cct_k) < distance(at.cct_k - 1));
    CHECK(distance(at.cct_k) < distance(at.cct_k + 1));
}

TEST_CASE("standard illuminants have their known CCT and Duv") {
    // A is 2848 K by c2 = 0.01435 m K: 2848 · 0.014387769/0.01435 = 2855.5 K. D65: 6504 K, +0.0032
    // (CIE 015:2018). Cut at 380 and 780 nm: 1 K at D65.
    const CctDuv a = cct_duv_of(integrate_xyz(illuminant_a()));
    CHECK(a.cct_k == doctest::Approx(2855.496).epsilon(1e-6));
    CHECK(std::abs(a.duv) < 1e-7);
    const CctDuv d65 = cct_duv_of(integrate_xyz(daylight_d65()));
    CHECK(std::abs(d65.cct_k - 6503.6) < 1.5);
    CHECK(std::abs(d65.duv - 0.0032) < 5e-5);
}

TEST_CASE("the ANSI C78.377 centres have the CCT and Duv that the standard aims at") {
    // Centres x, y of ANSI C78.377 to four decimals: half a last digit is 0.3 K per 1e-5 in x at
    // 2700 K and up to 3 K at 6500 K. CCT computed with the full-range observer, Duv to 1e-4.
    struct Centre {
        double x, y, cct_k, duv;
    };
    const std::vector<Centre> centres = {{0.5018, 0.4153, 2238, 0.0000},
                                         {0.4806, 0.4141, 2460, 0.0000},
                                         {0.4578, 0.4101, 2725, 0.0000},
                                         {0.4339, 0.4033, 3045, 0.0001},
                                         {0.4078, 0.3930, 3464, 0.0005},
                                         {0.3813, 0.3797, 3998, 0.0011},
                                         {0.3613, 0.3670, 4503, 0.0015},
                                         {0.3446, 0.3551, 5031, 0.0020},
                                         {0.3287, 0.3425, 5665, 0.0024},
                                         {0.3123, 0.3283, 6531, 0.0031}};
    for (const Centre& c : centres) {
        CAPTURE(c.cct_k);
        const CctDuv at = cct_duv_of(Xy{c.x, c.y});
        CHECK(std::abs(at.cct_k - c.cct_k) < 2.5);  // printed to 1 K; the cut moves 2 K at 6500 K
        CHECK(std::abs(at.duv - c.duv) < 8e-5);     // printed to 1e-4; the cut 3e-5
    }
}

TEST_CASE("the CIE LED illuminants have their known chromaticity, CCT and Duv") {
    ReferenceTable table = read_reference_table("cie_LED_illuminants_1nm.csv");
    if (table.empty()) return;
    struct Led {
        const char* name;
        double x, y, cct_k, duv;
    };
    // xy: CIE 015:2018 to four decimals; CCT and Duv printed to 1 K and 1e-4. The tables start at
    // 380 nm as we do, but the figures used a locus from 360 nm, 2 K higher at 6600 K.
    for (const Led& led : {Led{"LED-B1", 0.4560, 0.4078, 2733, -0.0007},
                           Led{"LED-B2", 0.4357, 0.4012, 2998, -0.0010},
                           Led{"LED-B3", 0.3756, 0.3723, 4103, -0.0007},
                           Led{"LED-B4", 0.3422, 0.3502, 5109, 0.0005},
                           Led{"LED-B5", 0.3118, 0.3236, 6598, 0.0009},
                           Led{"LED-BH1", 0.4474, 0.4066, 2851, -0.0003},
                           Led{"LED-RGB1", 0.4557, 0.4211, 2840, 0.0043},
                           Led{"LED-V1", 0.4548, 0.4044, 2724, -0.0019},
                           Led{"LED-V2", 0.3781, 0.3775, 4070, 0.0010}}) {
        CAPTURE(std::string(led.name));
        const Xyz xyz = integrate_xyz(Curve(table[led.name], 380.0, 1.0));
        CHECK(std::abs(xy_of(xyz).x - led.x) < 1e-4);
        CHECK(std::abs(xy_of(xyz).y - led.y) < 1e-4);
        CHECK(std::abs(cct_duv_of(xyz).cct_k - led.cct_k) < 2.5);
        CHECK(std::abs(cct_duv_of(xyz).duv - led.duv) < 8e-5);
    }
}

TEST_CASE("CCT agrees with the approximations of McCamy and of Hernandez-Andres") {
    // On the locus McCamy is known to be within 10 K from 2856 to 6500 K, Hernandez-Andres within
    // 0.5 % from 3500 K up.
    for (double kelvin = 2856; kelvin <= 6500; kelvin += 100) {
        CHECK(std::abs(mccamy_cct(planckian_xy(kelvin)) - kelvin) < 11);
    }
    for (double kelvin = 3500; kelvin <= 20000; kelvin += 500) {
        CHECK(hernandez_andres_cct(planckian_xy(kelvin)) == doctest::Approx(kelvin).epsilon(0.005));
    }
    // A worked example of the latter is 6500.74 K at this point.
    CHECK(hernandez_andres_cct(Xy{0.3127, 0.3290}) == doctest::Approx(6500.74).epsilon(1e-6));
    CHECK(cct_duv_of(Xy{0.3127, 0.3290}).cct_k == doctest::Approx(6500.74).epsilon(0.001));
}

TEST_CASE("beyond its ends the locus returns the nearest end") {
    CHECK(cct_duv_of(Xy{0.72, 0.28}).cct_k == doctest::Approx(kMinCct));
    CHECK(cct_duv_of(Xy{0.20, 0.18}).cct_k == doctest::Approx(kMaxCct));
}

}  // namespace dapple
