// Outlines and lamps out of focus in the clean frame.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "noisy_film.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kSoftSide = 64;
constexpr int kEdgeRows = 512;   // the mean of a column of the film has an error of 0.4 cd/m²
constexpr int kEdgeColumn = 32;  // the first column that sees the right surface at its centre
constexpr float kBlurPx = 24;
constexpr int kSoftPasses = 4;

// Share of the right surface at a column: the edge of a half plane, blurred over a disc (the area
// of a circle's segment).
double right_share(int x) {
    const double t =
        std::clamp((x + 0.5 - kEdgeColumn) / (0.5 * static_cast<double>(kBlurPx)), -1.0, 1.0);
    return 0.5 + (t * std::sqrt(1 - t * t) + std::asin(t)) / kPi;
}

double true_light(int x) {
    return 10 + 40 * right_share(x);
}

// Each walk sees one surface or the other, as through an aperture.
Film film_of_edge() {
    return make_film(kSoftSide, kEdgeRows, kSoftPasses, [](int x, int y, int pass) {
        return uniform(y * kSoftSide + x, pass) < right_share(x) ? 50.0 : 10.0;
    });
}

SeenPoints seen_edge(float blur_px) {
    SeenPoints seen = plain_wall(kSoftSide, kEdgeRows);
    for (int i = 0; i < kSoftSide * kEdgeRows; ++i) {
        SeenPoint& point = seen.pixels[static_cast<size_t>(i)];
        const int x = i % kSoftSide;
        point.surface = x < kEdgeColumn ? 0 : 1;
        if (std::abs(static_cast<float>(x - kEdgeColumn) + 0.5F) < 0.5F * kBlurPx)
            point.blur_px = blur_px;
    }
    return seen;
}

double column_mean(const CleanFrame& frame, int x) {
    double sum = 0;
    for (int y = 0; y < kEdgeRows; ++y) sum += luminance(frame, x, y);
    return sum / kEdgeRows;
}

// How much further the two columns at the edge are from each other than in truth, cd/m².
double step_at_edge(float blur_px) {
    const CleanFrame frame = clean_film(film_of_edge(), seen_edge(blur_px), kWhite);
    return column_mean(frame, kEdgeColumn) - column_mean(frame, kEdgeColumn - 1) -
           (true_light(kEdgeColumn) - true_light(kEdgeColumn - 1));
}

}  // namespace

TEST_CASE("an edge out of focus has no hard line in its middle") {
    const double as_sharp = step_at_edge(0);
    const double as_soft = step_at_edge(kBlurPx);
    CAPTURE(as_sharp);
    CHECK(as_sharp > 1);  // half of the true step
    CHECK(std::abs(as_soft) < 0.25 * as_sharp);
}

TEST_CASE("a soft edge keeps its light and its width") {
    const Film film = film_of_edge();
    const CleanFrame frame = clean_film(film, seen_edge(kBlurPx), kWhite);
    CHECK(sum_of(frame) == doctest::Approx(sum_of(film)).epsilon(1e-4));
    for (int x = 4; x < kSoftSide - 4; ++x) {
        CAPTURE(x);
        // Four standard errors of a column of the film: so cleaning moves the edge by less.
        CHECK(std::abs(column_mean(frame, x) - true_light(x)) < 1.8);
    }
}

// A lamp 400 times brighter than white, of which a walk in five finds a part: without a surface of
// its own, the frame would take it for specks.
TEST_CASE("a lamp's disc out of focus is shown, even, and with all its light") {
    constexpr double kLamp = 400 * kWhite;
    constexpr int kRadius = 10;
    const auto is_inside = [](int x, int y) {
        return std::hypot(x - kSoftSide / 2, y - kSoftSide / 2) <= kRadius;
    };
    const Film film = make_film(kSoftSide, kSoftSide, kSoftPasses, [&](int x, int y, int pass) {
        const bool finds = is_inside(x, y) && uniform(y * kSoftSide + x, pass) < 0.2;
        return finds ? 5 * kLamp : 1.0;
    });
    SeenPoints seen = plain_wall(kSoftSide, kSoftSide);
    for (int i = 0; i < kSoftSide * kSoftSide; ++i) {
        SeenPoint& point = seen.pixels[static_cast<size_t>(i)];
        if (is_inside(i % kSoftSide, i / kSoftSide)) point.surface = kSoftLamps;
    }
    const CleanFrame frame = clean_film(film, seen, kWhite);
    CHECK(sum_of(frame) == doctest::Approx(sum_of(film)).epsilon(1e-4));
    for (int i = 0; i < kSoftSide * kSoftSide; ++i) {
        const int x = i % kSoftSide;
        const int y = i / kSoftSide;
        CAPTURE(x);
        CAPTURE(y);
        if (is_inside(x, y)) {
            CHECK(luminance(frame, x, y) > 0.3 * kLamp);
        } else {
            CHECK(luminance(frame, x, y) < 2);
        }
    }
}

TEST_CASE("a lamp's own face that a single walk has found is shown where it is known to be") {
    const Film film = make_film(kSoftSide, kSoftSide, kSoftPasses, [](int x, int y, int pass) {
        return x == 20 && y == 30 && pass == 2 ? 1e6 : 1.0;
    });
    SeenPoints seen = plain_wall(kSoftSide, kSoftSide);
    CHECK(luminance(clean_film(film, seen, kWhite), 20, 30) < 2);
    seen.pixels[30 * kSoftSide + 20].shows_lamp = true;
    CHECK(luminance(clean_film(film, seen, kWhite), 20, 30) > 1e5);
}
