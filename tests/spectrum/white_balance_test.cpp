#include "spectrum/white_balance.h"

#include <doctest/doctest.h>

#include <cmath>

#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

void check_rows(const DMat3& m, const double (&rows)[3][3], double tolerance) {
    for (int row = 0; row < 3; ++row) {
        for (int column = 0; column < 3; ++column) {
            CAPTURE(row);
            CAPTURE(column);
            CHECK(std::abs(m[column][row] - rows[row][column]) < tolerance);
        }
    }
}

double distance(Uv a, Uv b) {
    return std::hypot(a.u - b.u, a.v - b.v);
}

}  // namespace

TEST_CASE("Bradford from A to D65 is the published matrix") {
    // Computed from the published cone matrix and whites 109.850, 35.585 and 95.047, 108.883;
    // agrees with the usual tables to their four decimals.
    const Xyz a(1.098503, 1.0, 0.355849);
    const Xyz d65(0.950470, 1.0, 1.088828);
    const double rows[3][3] = {{0.844696, -0.117924, 0.394811},
                               {-0.136632, 1.104125, 0.129172},
                               {0.079849, -0.134900, 3.192403}};
    check_rows(bradford_adaptation(a, d65), rows, 2e-6);  // six decimals, rounded
}

TEST_CASE("adaptation maps one white to the other, and back again") {
    const Xyz warm = white_point_of(2900);
    const DMat3 there = bradford_adaptation(warm, d65_white());
    const DMat3 back = bradford_adaptation(d65_white(), warm);
    CHECK(glm::length(there * warm - d65_white()) < 1e-12);
    check_rows(back * there, {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, 1e-12);
    CHECK((there * Xyz(0.18 * warm)).y == doctest::Approx(0.18).epsilon(1e-12));
}

TEST_CASE("the Rec.709 matrices are the published ones except for our white") {
    // ITU-R BT.709 matrices with the white of the tabulated D65, 360–830 nm. Our cut at 380 and
    // 780 nm moves that white by 3e-5 in y, and the entries by up to 2.3e-4.
    const double to_xyz[3][3] = {{0.4124574, 0.3575759, 0.1804372},
                                 {0.2126734, 0.7151517, 0.0721749},
                                 {0.0193339, 0.1191920, 0.9503028}};
    check_rows(xyz_from_linear_rec709(), to_xyz, 2.5e-4);
    // With the rounded white 0.3127, 0.3290.
    const double from_xyz[3][3] = {{3.2409699, -1.5373832, -0.4986108},
                                   {-0.9692436, 1.8759675, 0.0415551},
                                   {0.0556301, -0.2039770, 1.0569715}};
    check_rows(linear_rec709_from_xyz(), from_xyz, 1.2e-3);
    check_rows(linear_rec709_from_xyz() * xyz_from_linear_rec709(),
               {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
               1e-12);
}

TEST_CASE("white is D65, and the primaries are those of Rec.709") {
    CHECK(glm::length(xyz_from_linear_rec709(Rgb(1.0F)) - d65_white()) < 1e-12);
    const Xy red = xy_of(xyz_from_linear_rec709(Rgb(1, 0, 0)));
    const Xy green = xy_of(xyz_from_linear_rec709(Rgb(0, 1, 0)));
    const Xy blue = xy_of(xyz_from_linear_rec709(Rgb(0, 0, 1)));
    CHECK(red.x == doctest::Approx(0.640).epsilon(1e-12));
    CHECK(red.y == doctest::Approx(0.330).epsilon(1e-12));
    CHECK(green.x == doctest::Approx(0.300).epsilon(1e-12));
    CHECK(green.y == doctest::Approx(0.600).epsilon(1e-12));
    CHECK(blue.x == doctest::Approx(0.150).epsilon(1e-12));
    CHECK(blue.y == doctest::Approx(0.060).epsilon(1e-12));
    const Rgb white = linear_rec709_from_xyz(d65_white());
    CHECK(white.x == doctest::Approx(1.0).epsilon(1e-6));  // floats
    CHECK(white.y == doctest::Approx(1.0).epsilon(1e-6));
    CHECK(white.z == doctest::Approx(1.0).epsilon(1e-6));
}

TEST_CASE("daylight at the camera's white comes out neutral") {
    for (const double kelvin : {4000.0, 4300.0, 5600.0, 6500.0, 10000.0}) {
        const Xyz light = integrate_xyz(daylight(kelvin));
        CHECK(glm::length(light / light.y - white_point_of(kelvin)) < 1e-12);
    }
}

TEST_CASE("a blackbody at the camera's white comes out neutral up to 3500 K") {
    for (const double kelvin : {2000.0, 2856.0, 3200.0, 3500.0}) {
        const Xyz light = integrate_xyz(planck(kelvin));
        CHECK(glm::length(light / light.y - white_point_of(kelvin)) < 1e-6);  // floats
    }
}

TEST_CASE("turning the white-balance dial a little moves the white a little") {
    // 10 K move the locus by 7e-4 in uv at 2000 K and by less above; daylight adds its rounding.
    for (double kelvin = 2000; kelvin < 12000; kelvin += 10) {
        CAPTURE(kelvin);
        const Uv here = uv_1960(white_point_of(kelvin));
        const Uv next = uv_1960(white_point_of(kelvin + 10));
        CHECK(distance(here, next) < 9e-4);
        CHECK(next.u < here.u + 1e-5);
    }
}

TEST_CASE("sRGB code values are those of IEC 61966-2-1") {
    CHECK(srgb_encode(0.0F) == 0.0F);
    CHECK(srgb_encode(1.0F) == doctest::Approx(1.0).epsilon(1e-6));
    CHECK(srgb_encode(0.18F) == doctest::Approx(0.461356).epsilon(1e-5));  // by hand
    CHECK(srgb_encode(0.002F) == doctest::Approx(0.02584).epsilon(1e-6));  // 12.92 x
    CHECK(srgb_decode(0.5F) == doctest::Approx(0.214041).epsilon(1e-5));   // by hand
    CHECK(srgb_decode(0.04F) == doctest::Approx(0.04 / 12.92).epsilon(1e-6));
    CHECK(srgb_encode(-0.18F) == -srgb_encode(0.18F));
}

TEST_CASE("sRGB encoding and decoding undo each other") {
    for (int code = 0; code <= 255; ++code) {
        const float value = static_cast<float>(code) / 255.0F;
        // The standard's two pieces meet within 3e-8; the rest is float rounding.
        CHECK(srgb_encode(srgb_decode(value)) == doctest::Approx(value).epsilon(1e-5));
    }
    for (float x = 0; x < 4; x += 0.037F) {
        CHECK(srgb_decode(srgb_encode(x)) == doctest::Approx(x).epsilon(1e-5));
    }
}

}  // namespace dapple
