// The clean frame of a set in haze: less noise, the same light, and a shaft that still reads.
#include <doctest/doctest.h>

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

// A narrow spot from the left to the right, half a metre before a board, in a dark room with haze.
Scene shaft_in_haze() {
    Scene scene;
    scene.title = "a shaft in haze";
    scene.camera = camera_at(Point(0, 0, 2.8F), Point(0), kWide, kHigh);
    const MaterialId dark = add_material(scene, lambertian("dark", 0.2F));
    scene.room.push_back(box_room(Vec3(2, 1.5F, 3), dark));
    Fixture spot =
        fixture_of(FixtureForm::kSpot, Point(-1.9F, 0.9F, -1), Point(1.9F, -0.2F, -1), 900);
    spot.beam_angle = 0.12F;
    spot.field_angle = 0.2F;
    Fixture fill = fixture_of(FixtureForm::kPanel, Point(1.5F, 1, 2), Point(0, 0, -1), 60);
    scene.fixtures = {spot, fill};
    Board board;
    board.centre = Point(0.3F, -0.4F, -1.5F);
    board.facing = Normal(0, 0, 1);
    board.size = Vec2(0.8F, 1.2F);
    board.material = add_material(scene, lambertian("board", 0.6F));
    scene.boards.push_back(board);
    scene.haze.extinction = 3.912F / 25;
    scene.haze.forward = 0.6F;
    return scene;
}

RenderResult render_passes(const Scene& scene, int passes, uint64_t seed) {
    const World world(scene);
    RenderOptions options;
    options.passes = passes;
    options.seed = seed;
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

// Root of the mean squared error of the square roots of luminance: much as the eye sees it.
double error_of(const Picture& picture, const Picture& truth) {
    double sum = 0;
    for (size_t i = 0; i < truth.size(); ++i) {
        sum += std::pow(std::sqrt(picture[i]) - std::sqrt(truth[i]), 2);
    }
    return std::sqrt(sum / static_cast<double>(truth.size()));
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

TEST_CASE("the clean frame of a shaft in haze has its light and its contrast, and less noise" *
          doctest::test_suite("slow")) {
    const Scene scene = shaft_in_haze();
    const RenderResult few = render_passes(scene, 6, 1);
    const Picture raw = picture_of(few.film);
    const Picture clean = picture_of(clean_film(few.film, few.seen, white_of(scene.camera)));
    const Picture truth = picture_of(render_passes(scene, 96, 2).film);
    const int row = brightest_row(truth);
    CAPTURE(row);
    CAPTURE(error_of(raw, truth));
    CAPTURE(error_of(clean, truth));
    CHECK(error_of(clean, truth) < 0.7 * error_of(raw, truth));
    CAPTURE(contrast_of(truth, row));
    CAPTURE(contrast_of(raw, row));
    CAPTURE(contrast_of(clean, row));
    CHECK(contrast_of(truth, row) > 1.5);
    CHECK(contrast_of(clean, row) == doctest::Approx(contrast_of(truth, row)).epsilon(0.05));
    for (int y = 0; y < 2; ++y) {
        for (int x = 0; x < 3; ++x) {
            const glm::ivec4 tile(24 * x, 24 * y, 24 * x + 24, 24 * y + 24);
            CAPTURE(x);
            CAPTURE(y);
            CHECK(mean_of(clean, tile) == doctest::Approx(mean_of(raw, tile)).epsilon(0.02));
        }
    }
}
