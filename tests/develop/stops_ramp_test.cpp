#include "develop/stops_ramp.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "spectrum/white_balance.h"

using namespace dapple;

namespace {

constexpr int kSteps = 100;

Rgb colour_at(int step) {
    return ramp_colour(static_cast<double>(step) / kSteps);
}

double difference(const Lab& x, const Lab& y) {
    return std::hypot(x.l - y.l, x.a - y.a, x.b - y.b);
}

// Machado, Oliveira and Fernandes 2009: full dichromacy, on linear Rec.709; rows (from memory).
struct Dichromacy {
    const char* name;
    Rgb rows[3];
};
const Dichromacy kDichromacies[] = {
    {"no long cones",
     {{0.152286F, 1.052583F, -0.204868F},
      {0.114503F, 0.786281F, 0.099216F},
      {-0.003882F, -0.048116F, 1.051998F}}},
    {"no middle cones",
     {{0.367322F, 0.860646F, -0.227968F},
      {0.280085F, 0.672501F, 0.047413F},
      {-0.011820F, 0.042940F, 0.968881F}}},
    {"no short cones",
     {{1.255528F, -0.076749F, -0.178779F},
      {-0.078411F, 0.930809F, 0.147602F},
      {0.004733F, 0.691367F, 0.303900F}}},
};

Lab seen_with(const Dichromacy& eye, const Rgb& encoded) {
    const Rgb linear(srgb_decode(encoded.r), srgb_decode(encoded.g), srgb_decode(encoded.b));
    Rgb seen(glm::dot(eye.rows[0], linear),
             glm::dot(eye.rows[1], linear),
             glm::dot(eye.rows[2], linear));
    seen = glm::clamp(seen, Rgb(0), Rgb(1));
    return lab_of_srgb({srgb_encode(seen.r), srgb_encode(seen.g), srgb_encode(seen.b)});
}

}  // namespace

TEST_CASE("CIELAB of white, black and a published grey") {
    CHECK(lab_of_srgb(Rgb(1)).l == doctest::Approx(100));
    CHECK(lab_of_srgb(Rgb(0)).l == doctest::Approx(0));
    // L* of a luminance of 0.18 is 116 ∛0.18 - 16 = 49.496.
    const float grey = srgb_encode(0.18F);
    CHECK(lab_of_srgb(Rgb(grey)).l == doctest::Approx(49.496).epsilon(1e-4));
    CHECK(std::abs(lab_of_srgb(Rgb(grey)).a) < 1e-3);
}

TEST_CASE("the ramp's lightness rises all the way, by nearly equal steps") {
    for (int i = 1; i <= kSteps; ++i) {
        CAPTURE(i);
        const double rise = lab_of_srgb(colour_at(i)).l - lab_of_srgb(colour_at(i - 1)).l;
        CHECK(rise > 0.4);
        CHECK(rise < 1.3);
    }
    CHECK(lab_of_srgb(colour_at(0)).l == doctest::Approx(10).epsilon(0.01));
    CHECK(lab_of_srgb(colour_at(kSteps)).l == doctest::Approx(96).epsilon(0.01));
}

TEST_CASE("equal steps along the ramp are equal differences of colour") {
    double least = 1e9;
    double most = 0;
    for (int i = 1; i <= kSteps; ++i) {
        const double d = difference(lab_of_srgb(colour_at(i)), lab_of_srgb(colour_at(i - 1)));
        least = std::min(least, d);
        most = std::max(most, d);
    }
    // Equal but for the table's interpolation; a colour outside sRGB would be cut and differ more.
    CHECK(most / least < 1.02);
}

TEST_CASE("dichromats see the ramp in the same order") {
    for (const Dichromacy& eye : kDichromacies) {
        CAPTURE(eye.name);
        for (int i = 1; i <= kSteps; ++i) {
            CAPTURE(i);
            CHECK(seen_with(eye, colour_at(i)).l > seen_with(eye, colour_at(i - 1)).l);
        }
        // A stop is a tenth of the ramp: much more than can just be told apart (ΔE*ab of 2.3).
        for (int i = 10; i <= kSteps; i += 10) {
            CHECK(difference(seen_with(eye, colour_at(i)), seen_with(eye, colour_at(i - 10))) > 6);
        }
    }
}

TEST_CASE("stops beyond the ramp keep its end colours") {
    CHECK(colour_of_stops(-INFINITY) == ramp_colour(0));
    CHECK(colour_of_stops(-6) == ramp_colour(0));
    CHECK(colour_of_stops(4) == ramp_colour(1));
    CHECK(colour_of_stops(99) == ramp_colour(1));
    CHECK(colour_of_stops(-1) == ramp_colour(0.5));
}
