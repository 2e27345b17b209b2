#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "develop/develop.h"
#include "spectrum/white_balance.h"

using namespace dapple;

namespace {

Rgb srgb(const Rgb& c) {
    return Rgb(srgb_encode(c.r), srgb_encode(c.g), srgb_encode(c.b));
}

float luminance_of(const Rgb& c) {
    return glm::dot(c, Rgb(0.2126F, 0.7152F, 0.0722F));
}

Rgb linear_display(const Rgb& c) {
    const Rgb shown = display_colour(c);
    return Rgb(srgb_decode(shown.r), srgb_decode(shown.g), srgb_decode(shown.b));
}

// Colours round the hue circle, in and out of the gamut.
std::vector<Rgb> vivid_colours() {
    return {{1, 0, 0},
            {1, 0.5F, 0},
            {1, 1, 0},
            {0, 1, 0},
            {0, 1, 1},
            {0, 0, 1},
            {1, 0, 1},
            {1, 0.8F, 0.5F},
            {1, -0.1F, 0.2F},
            {-0.3F, 0.9F, 0},
            {0.1F, -0.05F, 1},
            {-0.2F, 0.6F, 1}};
}

}  // namespace

TEST_CASE("an 18 % card is shown at code 118") {
    // Standard output sensitivity of ISO 12232 puts the mean level at code 118 of sRGB.
    const Rgb shown = display_colour(Rgb(0.18F));
    for (int i = 0; i < 3; ++i) CHECK(std::lround(255 * shown[i]) == 118);
}

TEST_CASE("colours below the knee are encoded exactly as sRGB") {
    for (float r = 0; r <= kShoulderKnee; r += 0.07F) {
        for (float g = 0.01F; g <= kShoulderKnee; g += 0.11F) {
            for (float b = 0; b <= kShoulderKnee; b += 0.13F) {
                CHECK(display_colour(Rgb(r, g, b)) == srgb(Rgb(r, g, b)));
            }
        }
    }
}

TEST_CASE("the shoulder rises everywhere, smoothly at the knee, and stays below 1") {
    CHECK(shoulder(kShoulderKnee) == kShoulderKnee);
    const float step = 1e-3F;
    // The slope is 1 at the knee; over this step its mean is 1 - step/(1 - k) = 0.9967.
    CHECK(std::abs((shoulder(kShoulderKnee + step) - kShoulderKnee) / step - 1) < 0.005F);
    float last = 0;
    for (float x = 0.001F; x < 60; x *= 1.05F) {
        CHECK(shoulder(x) > last);
        CHECK(shoulder(x) < 1);
        last = shoulder(x);
    }
}

TEST_CASE("tones up to three stops over white differ by codes that the eye can tell") {
    int last = -1;
    for (const float stops : {-1.0F, -0.5F, 0.0F, 0.5F, 1.0F, 2.0F, 3.0F}) {
        const auto code =
            static_cast<int>(std::lround(255 * display_colour(Rgb(std::exp2(stops))).g));
        CHECK(code > last);
        CHECK(code < 255);
        last = code;
    }
}

TEST_CASE("greys stay grey at any brightness") {
    for (float x = 1e-4F; x < 1000; x *= 3) {
        const Rgb shown = display_colour(Rgb(x));
        // Rec.709 weights add to 1 within float rounding.
        CHECK(std::abs(shown.r - shown.g) < 1e-6F);
        CHECK(std::abs(shown.b - shown.g) < 1e-6F);
    }
}

TEST_CASE("every colour comes out between 0 and 1, black for no light") {
    for (const Rgb& c : vivid_colours()) {
        for (float scale = 0.01F; scale < 2000; scale *= 4) {
            const Rgb shown = display_colour(scale * c);
            for (int i = 0; i < 3; ++i) {
                CHECK(shown[i] >= 0);
                CHECK(shown[i] <= 1);
            }
        }
    }
    CHECK(display_colour(Rgb(0)) == Rgb(0));
    CHECK(display_colour(Rgb(-1, 0, 0)) == Rgb(0));
}

TEST_CASE("no colour changes its hue: channels keep their order and their spacing") {
    for (const Rgb& c : vivid_colours()) {
        for (const float scale : {0.3F, 1.0F, 3.0F, 20.0F}) {
            CAPTURE(scale);
            const Rgb shown = linear_display(scale * c);
            // Mixing with grey keeps the direction of (c - mean). 1e-3 covers the rounding of the
            // float curve there and back where little saturation is left.
            const Rgb a = c - Rgb((c.r + c.g + c.b) / 3);
            const Rgb b = shown - Rgb((shown.r + shown.g + shown.b) / 3);
            CHECK(glm::dot(a, b) > 0);
            CHECK(glm::length(glm::cross(a, b)) < 1e-3F * glm::length(a));
        }
    }
}

TEST_CASE("bringing a colour into the gamut does not change its luminance") {
    for (const Rgb& vivid : vivid_colours()) {
        for (const float scale : {0.1F, 0.7F, 2.0F, 9.0F}) {
            CAPTURE(scale);
            const Rgb c = scale * vivid;
            const float y = luminance_of(c);
            // E156, after a negative channel has been made 0 by mixing with the grey of luminance
            // y.
            const float low = std::min({c.r, c.g, c.b, 0.0F});
            const float high = y + (std::max({c.r, c.g, c.b}) - y) * (y / (y - low));
            const float n = 0.5F * (y + high);
            const float s = shoulder(n) / n;
            const float toned = s * y * s + (1 - s) * shoulder(y);
            // 1e-5: single precision through the sRGB curve and back.
            CHECK(std::abs(luminance_of(linear_display(c)) - toned) < 1e-5F);
        }
    }
}

TEST_CASE("a coloured highlight brightens and pales step by step") {
    // Light of 3200 K under a 4300 K white, from one stop under to four over.
    const Rgb warm(1.35F, 0.95F, 0.5F);
    float last_luminance = 0;
    float last_saturation = 1;
    for (float stops = -1; stops <= 4; stops += 0.25F) {
        CAPTURE(stops);
        const Rgb shown = linear_display(std::exp2(stops) * warm);
        const float luminance = luminance_of(shown);
        const float saturation = 1 - shown.b / shown.r;
        CHECK(luminance > last_luminance);
        CHECK(saturation < last_saturation + 1e-5F);
        CHECK(saturation > last_saturation - 0.45F);  // no sudden step to white
        last_luminance = luminance;
        last_saturation = saturation;
    }
    CHECK(last_saturation < 0.1F);
}

TEST_CASE("a picture is shown pixel by pixel") {
    const Picture linear{2, 1, {Rgb(0.2F, 0.1F, 0.4F), Rgb(3, 2, 1)}};
    const Picture shown = develop_display(linear);
    REQUIRE(shown.pixels.size() == 2);
    CHECK(shown.at(0, 0) == display_colour(linear.at(0, 0)));
    CHECK(shown.at(1, 0) == display_colour(linear.at(1, 0)));
}
