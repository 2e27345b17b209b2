#include "lenses/ghost_canvas.h"

#include <doctest/doctest.h>

#include <cmath>

#include "lens_samples.h"

using namespace dapple;
using namespace dapple::lens_samples;

namespace {

constexpr int kDrawnBand = 4;  // 550 nm

// A lamp whose light is all at 550 nm: 1 lm per lx and m².
LampColour green_lamp() {
    LampColour colour;
    colour.bands[0][kDrawnBand] = Xyz(0, 1, 0);
    return colour;
}

// Where a dense bundle of exact rays over the whole front element arrives.
struct Bundle {
    double share = 0;     // of the light that enters
    DVec2 middle{0};      // mm
    double diameter = 0;  // of an even disc with the same spread, mm
};

Bundle exact_bundle(const RealLens& lens, const LightRoute& route, const LensVec& lamp) {
    constexpr int kBundleRays = 400;
    Bundle bundle;
    double sum = 0, squares = 0, entered = 0;
    for (int k = 0; k < kBundleRays * kBundleRays; ++k) {
        const double x = lens.front_radius() * ((2.0 * (k % kBundleRays) + 1) / kBundleRays - 1);
        const double y = lens.front_radius() * ((2.0 * (k / kBundleRays) + 1) / kBundleRays - 1);
        if (std::hypot(x, y) > lens.front_radius()) continue;
        ++entered;
        const LensArrival at = trace_route(lens, route, ray_to_front(lamp, x, y), kDrawnBand);
        if (!is_through(lens, route, at)) continue;
        const auto light = static_cast<double>(at.passed[kDrawnBand]);
        sum += light;
        bundle.middle += light * at.film;
        squares += light * glm::dot(at.film, at.film);
    }
    bundle.share = sum / entered;
    bundle.middle /= sum;
    bundle.diameter = 2 * std::sqrt(2 * (squares / sum - glm::dot(bundle.middle, bundle.middle)));
    return bundle;
}

double sum_of(const GhostCanvas& canvas) {
    double sum = 0;
    for (const GroupXyz& v : canvas.values) sum += static_cast<double>(v[0].y);
    return sum;
}

}  // namespace

TEST_CASE("what is drawn is the light of the sheet's rays that arrives on the picture" *
          doctest::test_suite("figures")) {
    const RealLens lens(camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone));
    const LensVec lamp = lamp_at(15, 5);
    const LampColour colour = green_lamp();
    // So large that nothing misses it.
    const PixelGrid grid{600, 400, 0.5};
    double drawn = 0;
    double traced = 0;
    for (const auto& [i, j] : ghost_pairs(lens.glass())) {
        const LightRoute route = ghost_route(lens.glass(), i, j);
        const GhostSheet fine = trace_sheet(lens, {}, route, lamp, kDrawnBand, 97);
        traced += static_cast<double>(sum_sheet(lens, route, fine).share[kDrawnBand]);
        GhostCanvas canvas(grid, 1);
        const GhostSheet sheet = trace_sheet(lens, {}, route, lamp, kDrawnBand, 41);
        const SheetDrawing drawing{lens, route, 0.7, 386, colour, 0};
        draw_sheet(drawing, sheet, 0, kSpectrumSize, canvas);
        drawn += sum_of(canvas);
    }
    // Light in lm through the front disc, over the area of a pixel, as luminance (E126).
    const double front = 3.14159265358979 * square(12.6F);  // mm²
    const double flux = 386 * std::cos(15 * 3.14159265358979 / 180) * front * traced;
    const double transmitted = static_cast<double>(lens.axis_transmittance()[kDrawnBand]);
    const double expected = 4 * 2.8 * 2.8 / 3.14159265358979 / transmitted * flux / (0.5 * 0.5);
    CHECK(drawn == doctest::Approx(expected).epsilon(0.02));
}

TEST_CASE("a ghost is drawn as bright as a calculation by hand finds it") {
    // 10 000 cd at 5 m, 15° off the axis: 386 lx. The calculation by hand has 10 lx over 20 mm²,
    // 100 cd/m², from a share of light of 1.04e-3 and an area judged by eye. Here the share and the
    // area are those of exact rays: the film's spread of a bundle that covers what gets through.
    const RealLens lens(camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone));
    const LightRoute route = ghost_route(lens.glass(), 4, 8);
    const LampColour colour = green_lamp();
    GhostCanvas canvas({480, 320, 0.075}, 1);
    const GhostSheet sheet = trace_sheet(lens, {}, route, lamp_at(15, 5), kDrawnBand, 65);
    const DrawnGhost ghost =
        draw_sheet({lens, route, 0, 386, colour, 0}, sheet, 0, kSpectrumSize, canvas);
    // On the left of the picture; another program has it at x = 14.85 mm on the film.
    CHECK((240 - ghost.middle.x) * 0.075 == doctest::Approx(14.85).epsilon(0.01));
    CHECK(ghost.middle.y == doctest::Approx(160).epsilon(0.01));
    const Bundle bundle = exact_bundle(lens, route, lamp_at(15, 5));
    const double pitch = 0.075;
    CHECK(240 - ghost.middle.x == doctest::Approx(bundle.middle.x / pitch).epsilon(0.01));
    CHECK(pitch * ghost.diameter == doctest::Approx(bundle.diameter).epsilon(0.02));
    const double front = 3.14159265358979 * squared(12.6);  // mm²
    const double flux = 386 * std::cos(15 * kDegree) * front * bundle.share;
    const double n = lens.working_f_number();
    const double transmitted = static_cast<double>(lens.axis_transmittance()[kDrawnBand]);
    CHECK(ghost.light * pitch * pitch ==
          doctest::Approx(4 * n * n / 3.14159265358979 / transmitted * flux).epsilon(0.02));
}

TEST_CASE("a blur keeps the light and spreads it like a disc") {
    GhostCanvas canvas({101, 101, 1}, 1);
    canvas.values[50 * 101 + 50][0] = glm::vec3(1);
    canvas.use({50, 50, 51, 51});
    canvas.blur(20);
    CHECK(sum_of(canvas) == doctest::Approx(1).epsilon(1e-4));
    double spread = 0;
    for (int i = 0; i < 101 * 101; ++i) {
        const double dx = i % 101 - 50;
        spread += dx * dx * static_cast<double>(canvas.values[static_cast<size_t>(i)][0].y);
    }
    CHECK(spread == doctest::Approx(20 * 20 / 4.0).epsilon(0.1));  // of a disc along one axis
}
