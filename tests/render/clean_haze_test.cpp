// The clean frame of a set in haze: less noise, the same light, and a shaft that still reads.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "clean/clean_film.h"
#include "geometry/world.h"
#include "render/prepare/setup.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kWide = 72;
constexpr int kHigh = 48;

// A spot from the left to the right, half a metre before a board, in a dark room with haze.
Scene shaft_in_haze() {
    Scene scene;
    scene.title = "a shaft in haze";
    scene.camera = camera_at(Point(0, 0, 2.8F), Point(0), kWide, kHigh);
    const MaterialId dark = add_material(scene, lambertian("dark", 0.2F));
    scene.room.push_back(box_room(Vec3(2, 1.5F, 3), dark));
    Fixture spot = fixture_of(FixtureForm::kSpot, Point(-1.7F, 1.1F, -1), Point(1.5F, -1, -1), 700);
    spot.beam_angle = 0.3F;
    spot.field_angle = 0.4F;
    Fixture fill = fixture_of(FixtureForm::kPanel, Point(1.5F, 1, 2), Point(0, 0, -1), 60);
    scene.fixtures = {spot, fill};
    Board board;
    board.centre = Point(0.3F, -0.4F, -1.5F);
    board.facing = Normal(0, 0, 1);
    board.size = Vec2(0.8F, 1.2F);
    board.material = add_material(scene, lambertian("board", 0.6F));
    scene.boards.push_back(board);
    scene.haze.extinction = 3.912F / 60;
    scene.haze.forward = 0.6F;
    return scene;
}

RenderResult render_passes(const Scene& scene,
                           int passes,
                           uint64_t seed,
                           double footprint_px = 2.5) {
    const World world(scene);
    RenderOptions options;
    options.passes = passes;
    options.seed = seed;
    options.footprint_px = footprint_px;
    return render_frame(scene, world, options);
}

using Picture = std::vector<double>;  // cd/m²

Picture picture_of(const Film& film) {
    Picture picture;
    for (int i = 0; i < film.pixels(); ++i) picture.push_back(film.resolve(i).y);
    return picture;
}

Picture picture_of(const CleanFrame& frame) {
    Picture picture;
    for (const Xyz& light : frame.total) picture.push_back(light.y);
    return picture;
}

double mean_of(const Picture& picture, const glm::ivec4& rect) {
    double sum = 0;
    for (int y = rect.y; y < rect.w; ++y) {
        for (int x = rect.x; x < rect.z; ++x) sum += picture[static_cast<size_t>(y * kWide + x)];
    }
    return sum / ((rect.z - rect.x) * (rect.w - rect.y));
}

// Median over pixels of the error relative to the truth. The edges of the shaft are blurred in both
// frames, and they are few.
double error_of(const Picture& picture, const Picture& truth) {
    std::vector<double> errors;
    for (size_t i = 0; i < truth.size(); ++i) {
        errors.push_back(std::abs(picture[i] / truth[i] - 1));
    }
    const auto middle = errors.begin() + static_cast<std::ptrdiff_t>(errors.size() / 2);
    std::nth_element(errors.begin(), middle, errors.end());
    return *middle;
}

// How much brighter the shaft is, in the middle of the frame, than what is above it.
double contrast_of(const Picture& picture, int row_of_shaft) {
    const glm::ivec4 shaft(30, row_of_shaft - 1, 42, row_of_shaft + 2);
    const glm::ivec4 above(30, row_of_shaft - 9, 42, row_of_shaft - 6);
    return mean_of(picture, shaft) / mean_of(picture, above);
}

int brightest_row(const Picture& picture) {
    int brightest = 0;
    double most = 0;
    for (int y = 9; y < kHigh - 2; ++y) {
        const double light = mean_of(picture, {30, y, 42, y + 1});
        if (light > most) {
            most = light;
            brightest = y;
        }
    }
    return brightest;
}

}  // namespace

TEST_CASE(
    "a shaft in haze: spread glow and the clean frame take noise away, not light or contrast" *
    doctest::test_suite("slow")) {
    const Scene scene = shaft_in_haze();
    const Picture unspread = picture_of(render_passes(scene, 6, 1, 0).film);
    const RenderResult few = render_passes(scene, 6, 1);
    const Picture raw = picture_of(few.film);
    const Picture clean = picture_of(clean_film(few.film, few.seen, white_of(scene.camera)));
    const Picture truth = picture_of(render_passes(scene, 96, 2).film);
    const int row = brightest_row(truth);
    CAPTURE(row);
    CAPTURE(error_of(unspread, truth));
    CAPTURE(error_of(raw, truth));
    CAPTURE(error_of(clean, truth));
    CHECK(error_of(raw, truth) < 0.5 * error_of(unspread, truth));
    CHECK(error_of(clean, truth) < 0.5 * error_of(unspread, truth));
    CHECK(error_of(clean, truth) < error_of(raw, truth));
    CAPTURE(contrast_of(truth, row));
    CAPTURE(contrast_of(raw, row));
    CAPTURE(contrast_of(clean, row));
    CHECK(contrast_of(truth, row) > 2.5);
    // Blur makes the shaft paler in the first passes.
    CHECK(contrast_of(clean, row) == doctest::Approx(contrast_of(truth, row)).epsilon(0.15));
    // Cleaning blurs the shaft no further: a difference that nobody sees.
    CHECK(contrast_of(clean, row) == doctest::Approx(contrast_of(raw, row)).epsilon(0.03));
    for (int y = 0; y < 2; ++y) {
        for (int x = 0; x < 3; ++x) {
            const glm::ivec4 tile(24 * x, 24 * y, 24 * x + 24, 24 * y + 24);
            CAPTURE(x);
            CAPTURE(y);
            CHECK(mean_of(clean, tile) == doctest::Approx(mean_of(raw, tile)).epsilon(0.02));
        }
    }
}
