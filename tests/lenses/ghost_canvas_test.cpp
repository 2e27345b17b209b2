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

double sum_of(const GhostCanvas& canvas) {
    double sum = 0;
    for (const GroupXyz& v : canvas.values) sum += static_cast<double>(v[0].y);
    return sum;
}

}  // namespace

TEST_CASE("what is drawn is the light of the sheet's rays that arrives on the picture") {
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
    // Light in lm through the front disc, over the area of a pixel, as luminance (E121).
    const double front = 3.14159265358979 * square(12.6F);  // mm²
    const double flux = 386 * std::cos(15 * 3.14159265358979 / 180) * front * traced;
    const double transmitted = static_cast<double>(lens.axis_transmittance()[kDrawnBand]);
    const double expected = 4 * 2.8 * 2.8 / 3.14159265358979 / transmitted * flux / (0.5 * 0.5);
    CHECK(drawn == doctest::Approx(expected).epsilon(0.02));
}

TEST_CASE("a ghost is drawn as bright as a calculation by hand finds it") {
    // 10 000 cd at 5 m, 15° off the axis: 386 lx; ghost 5-9, bare glass, about 20 mm² and 10 lx, so
    // about 100 cd/m² at f/2.8 with no loss in the lens.
    const RealLens lens(camera_with("normal", kNormalFocal, 2.8F, LensCoating::kNone));
    const LightRoute route = ghost_route(lens.glass(), 4, 8);
    const LampColour colour = green_lamp();
    GhostCanvas canvas({480, 320, 0.075}, 1);
    const GhostSheet sheet = trace_sheet(lens, {}, route, lamp_at(15, 5), kDrawnBand, 65);
    const DrawnGhost ghost =
        draw_sheet({lens, route, 0, 386, colour, 0}, sheet, 0, kSpectrumSize, canvas);
    // On the film at x = 14.85 mm, so on the left of the picture.
    CHECK(ghost.middle.x == doctest::Approx(240 - 14.85 / 0.075).epsilon(0.05));
    CHECK(ghost.middle.y == doctest::Approx(160).epsilon(0.01));
    const double area = 20;  // mm²
    const double mean = ghost.light * 0.075 * 0.075 / area;
    const double transmitted = static_cast<double>(lens.axis_transmittance()[kDrawnBand]);
    CHECK(mean * transmitted == doctest::Approx(100).epsilon(0.15));
}

TEST_CASE("a blur keeps the light and spreads it like a disc") {
    GhostCanvas canvas({101, 101, 1}, 1);
    canvas.values[50 * 101 + 50][0] = glm::vec3(1);
    canvas.blur(20);
    CHECK(sum_of(canvas) == doctest::Approx(1).epsilon(1e-4));
    double spread = 0;
    for (int i = 0; i < 101 * 101; ++i) {
        const double dx = i % 101 - 50;
        spread += dx * dx * static_cast<double>(canvas.values[static_cast<size_t>(i)][0].y);
    }
    CHECK(spread == doctest::Approx(20 * 20 / 4.0).epsilon(0.1));  // of a disc along one axis
}
