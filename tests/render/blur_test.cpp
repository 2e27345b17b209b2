// What the clean frame is told of things out of focus.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kBlurWidth = 96;
constexpr int kBlurHeight = 64;
constexpr int kMiddlePixel = kBlurHeight / 2 * kBlurWidth + kBlurWidth / 2;

// A long lens, wide open, in a room whose far wall is 7 m from it.
Scene room_in_focus_at(float focus) {
    Scene scene;
    scene.camera = camera_at(Point(0, 0, 3), Point(0, 0, 0), kBlurWidth, kBlurHeight);
    scene.camera.focal_length = 0.085F;
    scene.camera.f_number = 1.4F;
    scene.camera.focus_distance = focus;
    const MaterialId grey = add_material(scene, lambertian("grey", 0.5F));
    scene.room.push_back(box_room(Vec3(2, 2, 4), grey));
    scene.fixtures.push_back(
        fixture_of(FixtureForm::kPanel, Point(0, 1.9F, 2.5F), Point(0, 0, -4), 500));
    return scene;
}

// A board 2 m from the lens, left of the middle of the frame.
void add_board_left(Scene& scene) {
    Board board;
    board.centre = Point(-0.5F, 0, 1);
    board.size = Vec2(1, 2);
    board.material = add_material(scene, lambertian("board", 0.2F));
    scene.boards.push_back(board);
}

SeenPoints seen_by(const Scene& scene) {
    const World world(scene);
    RenderOptions options;
    options.passes = 1;
    return render_frame(scene, world, options).seen;
}

// Diameter of the blur on the sensor over the width of a pixel (Potmesil and Chakravarty 1981, from
// memory): c = f² |d - s| / (N d (s - f)).
double formula_blur(const Camera& camera, double depth) {
    const auto f = static_cast<double>(camera.focal_length);
    const auto s = static_cast<double>(camera.focus_distance);
    const double metres =
        f * f * std::abs(depth - s) / (static_cast<double>(camera.f_number) * depth * (s - f));
    return metres / (static_cast<double>(camera.sensor.x) / camera.width);
}

double blur_found(const SeenPoints& seen, int pixel) {
    return static_cast<double>(seen.pixels[static_cast<size_t>(pixel)].blur_px);
}

}  // namespace

TEST_CASE("a wall out of focus has the blur of the formula") {
    const Scene scene = room_in_focus_at(2);
    CHECK(blur_found(seen_by(scene), kMiddlePixel) ==
          doctest::Approx(formula_blur(scene.camera, 7)).epsilon(0.03));
}

TEST_CASE("without a focus everything is sharp") {
    const SeenPoints seen = seen_by(room_in_focus_at(0));
    for (const SeenPoint& point : seen.pixels) CHECK(point.blur_px == 0);
}

TEST_CASE("a board in focus is sharp up to its edge, the wall behind it is not") {
    Scene scene = room_in_focus_at(2);
    add_board_left(scene);
    const SeenPoints seen = seen_by(scene);
    CHECK(blur_found(seen, kMiddlePixel - 1) == 0);
    CHECK(blur_found(seen, kMiddlePixel) > 4);
}

TEST_CASE("before a wall in focus, a board's edge is soft on both of its sides") {
    Scene scene = room_in_focus_at(7);
    scene.camera.focal_length = 0.2F;
    add_board_left(scene);
    const SeenPoints seen = seen_by(scene);
    const double blur = formula_blur(scene.camera, 2);
    REQUIRE(blur > 20);
    const int within = static_cast<int>(0.4 * blur);
    const int beyond = static_cast<int>(0.6 * blur);
    CHECK(blur_found(seen, kMiddlePixel - within) > 0.9 * blur);
    CHECK(blur_found(seen, kMiddlePixel + within) > 0.9 * blur);
    CHECK(blur_found(seen, kMiddlePixel + beyond) == 0);
    const SeenPoint& left = seen.pixels[kMiddlePixel - 1];
    const SeenPoint& right = seen.pixels[kMiddlePixel];
    REQUIRE(left.surface != right.surface);
    CHECK(likeness(left, right) == 0);
    CHECK(likeness(left, right, 1) == 1);
    CHECK(likeness(left, right, static_cast<float>(blur)) == 0);
    // Its colour is between theirs.
    CHECK(left.albedo.r > 0.25F);
    CHECK(left.albedo.r < 0.45F);
}

TEST_CASE("what is in focus behind a pane is sharp, although the pane is not") {
    Scene scene = room_in_focus_at(7);
    scene.camera.focal_length = 0.2F;
    GlassObject pane;
    pane.name = "pane";
    pane.form = GlassForm::kPane;
    pane.position = Point(0, -0.5F, 2);
    pane.width = pane.height = 1;
    pane.wall = 0.004F;
    pane.material = add_material(scene, clear_glass("glass", GlassType::kSodaLime));
    scene.glasses.push_back(pane);
    const SeenPoints seen = seen_by(scene);
    REQUIRE(seen.pixels[kMiddlePixel].surface >= 0x40000000);  // behind glass
    CHECK(formula_blur(scene.camera, 1) > 50);
    CHECK(blur_found(seen, kMiddlePixel) < 1);
}

TEST_CASE("a lamp out of focus is a disc of its own") {
    Scene scene = room_in_focus_at(1);
    Fixture lamp = fixture_of(FixtureForm::kBare, Point(0, 0, -2), Point(0, 0, 0), 100);
    lamp.source_diameter = 0.02F;
    scene.fixtures.push_back(lamp);
    const SeenPoints seen = seen_by(scene);
    const auto pixels =
        static_cast<double>(std::count_if(seen.pixels.begin(), seen.pixels.end(), is_soft_lamp));
    const double radius = formula_blur(scene.camera, 5) / 2;
    REQUIRE(radius > 5);
    CHECK(pixels > kPi * radius * radius);
    CHECK(pixels < kPi * (radius + 3) * (radius + 3));
}
