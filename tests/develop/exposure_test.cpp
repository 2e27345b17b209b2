#include "develop/exposure.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace dapple;

TEST_CASE("meter readings follow the table of ISO 2720 for K = 12.5 and C = 250") {
    struct Row {
        double ev, luminance, lux;
    };
    const Row rows[] = {{-2, 0.03125, 0.625},
                        {0, 0.125, 2.5},
                        {3, 1, 20},
                        {5, 4, 80},
                        {6, 8, 160},
                        {7, 16, 320},
                        {8, 32, 640},
                        {9, 64, 1280},
                        {10, 128, 2560},
                        {12, 512, 10240},
                        {15, 4096, 81920}};
    for (const Row& row : rows) {
        CAPTURE(row.ev);
        // f/1 and the exposure time that has this value at ISO 100.
        const double shutter = std::exp2(-row.ev);
        CHECK(exposure_value(1, shutter, 100) == doctest::Approx(row.ev).epsilon(1e-12));
        CHECK(metered_luminance(1, shutter, 100) == doctest::Approx(row.luminance).epsilon(1e-12));
        CHECK(metered_illuminance(1, shutter, 100) == doctest::Approx(row.lux).epsilon(1e-12));
    }
}

TEST_CASE("exposure values of camera settings agree with published ones") {
    // Worked values of a colour science library's tests, given to six decimals.
    CHECK(std::abs(exposure_value(8, 1.0 / 250, 400) - 11.965784) < 1e-6);
    CHECK(std::abs(exposure_value(5.6, 1.0 / 500, 800) - 10.936638) < 1e-6);
    CHECK(metered_luminance(8, 1, 100) == doctest::Approx(8).epsilon(1e-12));
    CHECK(metered_illuminance(8, 1, 100) == doctest::Approx(160).epsilon(1e-12));
}

TEST_CASE("white luminance is that of a perfect white in the metered light") {
    // E/π, the luminance of a Lambertian surface of reflectance 1.
    CHECK(white_luminance(4, 1.0 / 60, 800) ==
          doctest::Approx(250.0 * 16 * 60 / 800 / 3.14159265358979).epsilon(1e-12));
    Camera camera;
    camera.f_number = 8;
    camera.shutter = 1;
    camera.iso = 100;
    CHECK(white_luminance(camera) == doctest::Approx(160 / 3.14159265358979).epsilon(1e-12));
    CHECK(exposure_value(camera) == doctest::Approx(6).epsilon(1e-12));
}

TEST_CASE("exposure doubles with time and with speed and falls with the f-number squared") {
    const double base = white_luminance(4, 0.02, 200);
    CHECK(white_luminance(4, 0.04, 200) == doctest::Approx(base / 2).epsilon(1e-14));
    CHECK(white_luminance(4, 0.02, 400) == doctest::Approx(base / 2).epsilon(1e-14));
    CHECK(white_luminance(8, 0.02, 200) == doctest::Approx(base * 4).epsilon(1e-14));
}

TEST_CASE("the metered f-number is the one whose metered light it is") {
    for (const double n : {1.4, 2.8, 5.6, 11.0}) {
        const double lux = metered_illuminance(n, 1.0 / 60, 800);
        CHECK(metered_f_number(lux, 1.0 / 60, 800) == doctest::Approx(n).epsilon(1e-14));
    }
}

TEST_CASE("lighting ratios in stops") {
    // 3:1 is 1.585 stops, 5:1 is 2.322, 8:1 is 3 (trade tables of lighting ratios).
    CHECK(std::abs(stops_from_ratio(3) - 1.585) < 5e-4);
    CHECK(std::abs(stops_from_ratio(5) - 2.322) < 5e-4);
    CHECK(stops_from_ratio(8) == doctest::Approx(3));
    CHECK(stops_from_ratio(0) == -INFINITY);
}

TEST_CASE("f-stops are shown as meters show them") {
    const auto at = [](double stops) { return f_stop_text(std::exp2(0.5 * stops)); };
    CHECK(at(0) == "1");
    CHECK(at(5) == "5.6");
    CHECK(at(5.3) == "5.6 + 3/10");
    CHECK(at(5.96) == "8");  // nearest tenth
    CHECK(at(-1) == "0.7");
    CHECK(f_stop_text(0.95) == "0.95");
    CHECK(f_stop_text(0.8) == "0.8");
    CHECK(at(12) == "64");
    CHECK(at(16) == "256");  // off the scale: the plain number
    CHECK(f_stop_text(4) == "4");
}
