#include "lenses/veil.h"

#include <doctest/doctest.h>

#include <cmath>

#include "base/random.h"
#include "lens_samples.h"
#include "lenses/field_ghosts.h"
#include "lenses/trace_lens.h"
#include "lenses/vignetting.h"

using namespace dapple;
using namespace dapple::lens_samples;

TEST_CASE("the scattered light adds up to all of it") {
    const Veil veil(43.2666);
    double sum = 0;
    // Rings of equal ratio, to 10 km.
    const double ratio = 1.002;
    for (double r = 1e-4; r < 1e7; r *= ratio) {
        const double middle = r * std::sqrt(ratio);
        sum += veil.density(middle) * 2 * 3.14159265358979 * middle * r * (ratio - 1);
    }
    CHECK(sum == doctest::Approx(1).epsilon(2e-3));
}

TEST_CASE("of the scattered light the parts go beyond a spot that another program finds") {
    const Veil veil(43.2666);
    CHECK(veil.beyond(0.44) == doctest::Approx(0.7005).epsilon(2e-3));
    CHECK(veil.beyond(2.16) == doctest::Approx(0.5381).epsilon(2e-3));
    CHECK(veil.scattered_for(0.01) == doctest::Approx(0.0186).epsilon(3e-3));
}

TEST_CASE("the mean over cells has the light of the density") {
    const Veil veil(43.2666);
    double sum = 0;
    for (int y = -200; y <= 200; ++y) {
        for (int x = -200; x <= 200; ++x)
            sum += veil.cell_density(0.05 * x, 0.05 * y, 0.05) * 0.0025;
    }
    // A square of 20.05 mm: between the circles in it and around it.
    CHECK(sum > 1 - veil.beyond(10.025));
    CHECK(sum < 1 - veil.beyond(14.18));
}

namespace {

struct RandomSum {
    double mean = 0, error = 0;
};

// Light of a bright field on the image circle by these routes, from directions up to an angle with
// this square of its sine: random rays as a matt field would send them. Not scaled.
RandomSum light_of_field(const RealLens& lens,
                         const std::vector<LightRoute>& routes,
                         double widest_sine2,
                         int rays) {
    RandomStream random(3, static_cast<uint32_t>(routes.size()), 0, Purpose::kPilot);
    const auto next = [&] { return static_cast<double>(random.next()); };
    double sum = 0;
    double squares = 0;
    for (int k = 0; k < rays; ++k) {
        const double r = lens.front_radius() * std::sqrt(next());
        const double azimuth = 2 * 3.14159265358979 * next();
        const double sine = std::sqrt(widest_sine2 * next());  // in proportion to the cosine
        const LensRay ray{{r * std::cos(azimuth), r * std::sin(azimuth), 0},
                          {sine, 0, std::sqrt(1 - sine * sine)}};
        double light = 0;
        for (const LightRoute& route : routes) {
            const LensArrival at = trace_route(lens, route, ray, 4);
            if (!is_through(lens, route, at) || glm::length(at.film) > 21.633) continue;
            light += widest_sine2 * static_cast<double>(at.passed[4]);
        }
        sum += light;
        squares += light * light;
    }
    return {sum / rays, std::sqrt(squares) / rays};
}

}  // namespace

TEST_CASE("the ghosts of a bright field are the part of the index that random rays find") {
    // f/2.8, double Gauss, 550 nm. Another program has 6.2 % bare and 0.039 % with one layer, both
    // rounded.
    Camera camera = camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone);
    for (const LensCoating coating : {LensCoating::kNone, LensCoating::kSingle}) {
        camera.lens.coating = coating;
        const RealLens lens(camera);
        std::vector<LightRoute> routes;
        for (const auto& [i, j] : ghost_pairs(lens.glass())) {
            routes.push_back(ghost_route(lens.glass(), i, j));
        }
        const RandomSum ghosts =
            light_of_field(lens, routes, squared(std::sin(64 * kDegree)), 12000);
        const RandomSum image = light_of_field(
            lens, {image_route(lens.glass())}, squared(std::sin(30 * kDegree)), 60000);
        const double random = ghosts.mean / image.mean;
        const double error =
            random * std::hypot(ghosts.error / ghosts.mean, image.error / image.mean);
        const double field = ghosts_of_bright_field(camera, lens, {});
        CAPTURE(random);
        CAPTURE(field);
        CHECK(error < 0.04 * random);
        CHECK(std::abs(field - random) < 3 * error);
        CHECK(field ==
              doctest::Approx(coating == LensCoating::kNone ? 0.062 : 0.00039).epsilon(0.04));
    }
}

TEST_CASE("the beam that gets through narrows with the angle as another program finds") {
    // Cross-section over that on the axis at 5, 10, 15, 20 and 22°, to half a per cent.
    const struct {
        float f_number;
        double sections[5];
    } rows[] = {{2.8F, {0.995, 0.989, 0.888, 0.614, 0.482}},
                {5.6F, {1.000, 0.998, 0.976, 0.954, 0.940}}};
    const double degrees[] = {5, 10, 15, 20, 22};
    for (const auto& row : rows) {
        const RealLens lens(camera_with("normal", kNormalFocal, row.f_number, LensCoating::kMulti));
        const Vignetting vignetting(lens, {}, 0.45);
        for (int k = 0; k < 5; ++k) {
            const double angle = degrees[k] * 3.14159265358979 / 180;
            CAPTURE(row.f_number);
            CAPTURE(degrees[k]);
            const double section = vignetting.at(std::tan(angle)) / std::pow(std::cos(angle), 3);
            CHECK(section == doctest::Approx(row.sections[k]).epsilon(0.015));
        }
    }
}
