// The techniques of the light meters agree with each other and with the frame.
#include <doctest/doctest.h>

#include <cmath>
#include <cstring>

#include "render/agreement.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A glass ball focuses the beam of a spot onto the floor. The camera looks straight down.
Scene caustic_on_floor() {
    Scene scene;
    scene.title = "caustic on the floor";
    const MaterialId grey = add_material(scene, lambertian("grey", 0.5F));
    scene.room.push_back(box_room(Vec3(1, 1, 1), grey));
    const MaterialId glass = add_material(scene, clear_glass("glass", GlassType::kSodaLime));
    scene.glasses.push_back(ball_at(Point(0.3F, -0.7F, 0), 0.2F, glass));
    Fixture spot = fixture_of(FixtureForm::kSpot, Point(0.9F, 0.3F, 0), Point(0.3F, -0.6F, 0), 200);
    spot.beam_angle = 0.2F;
    spot.field_angle = 0.3F;
    scene.fixtures.push_back(spot);
    // 1 px is 5 mm on the floor: 35 mm of sensor over 100 px, 1.9 m away.
    scene.camera = camera_at(Point(-0.1F, 0.9F, 0), Point(-0.1F, -1, 0), 100, 100);
    scene.camera.sensor = Vec2(0.036F, 0.036F);
    scene.camera.focal_length = 0.036F * 1.9F / 0.5F;
    return scene;
}

}  // namespace

TEST_CASE("light walks and meter walks agree on every kind of receptor in a room without glass" *
          doctest::test_suite("slow")) {
    Scene scene = room_without_glass();
    add_meters(scene);
    const MeterResult camera = read_meters_by(scene, Transport::kCamera, 64, 1);
    const MeterResult walks = read_meters_by(scene, Transport::kWalks, 64, 2);
    check_agreement(scene, camera, walks, 0.003);
}

TEST_CASE("light walks and meter walks agree on glass, water, cloth, panes, varnish and metal" *
          doctest::test_suite("slow")) {
    Scene scene = room_with_everything();
    add_meters(scene);
    const MeterResult camera = read_meters_by(scene, Transport::kCamera, 300, 3);
    const MeterResult walks = read_meters_by(scene, Transport::kWalks, 30, 4);
    check_agreement(scene, camera, walks, 0.015);
}

TEST_CASE("the meter and the film agree inside a caustic: L = ρ E / π" *
          doctest::test_suite("slow")) {
    Scene scene = caustic_on_floor();
    // A tile of the frame, 20 x 20 px, is a square of 10 cm on the floor. Its meter is 0.1 mm above
    // the same square. The brightest part of the pattern is at x = 0.1 to 0.2 m.
    for (int tile = 0; tile < 5; ++tile) {
        const float x = -0.35F + 0.1F * static_cast<float>(tile) + 0.05F;
        Meter m = meter_at("tile " + std::to_string(tile), Point(x, -0.9999F, 0), Point(x, 0, 0));
        m.size = Vec2(0.1F, 0.1F);
        scene.meters.push_back(m);
        add_region(scene, m.name, glm::ivec4(20 * tile, 40, 20 * tile + 20, 60));
    }
    const World world(scene);
    RenderOptions options;
    options.passes = 40;
    options.footprint_px = 0;
    options.light_walks_per_pixel = 8;
    const RenderResult frame = render_frame(scene, world, options);
    const MeterResult meters = read_meters_by(scene, Transport::kWalks, 40, 5);
    for (size_t m = 0; m < scene.meters.size(); ++m) {
        const auto film = frame.film.region_luminance(m);
        const double from_film = film.mean * kPi / 0.5;
        const double film_stderr = film.stderr_of_mean * kPi / 0.5;
        const Reading alone = meters.readings[m];
        const Reading in_frame = frame.meters.reading(static_cast<int>(m));
        CAPTURE(scene.meters[m].name);
        CAPTURE(from_film);
        CAPTURE(film_stderr);
        CAPTURE(alone.lux);
        CAPTURE(alone.lux_stderr);
        CAPTURE(in_frame.lux);
        CAPTURE(in_frame.lux_stderr);
        // The height of 0.1 mm and the rounding of floats change the result by up to 1e-3.
        const double tolerance = 1e-3 * from_film;
        CHECK(std::abs(alone.lux - from_film) <
              3.3 * std::hypot(alone.lux_stderr, film_stderr) + tolerance);
        CHECK(std::abs(in_frame.lux - from_film) <
              3.3 * std::hypot(in_frame.lux_stderr, film_stderr) + tolerance);
        CHECK(film_stderr < 0.01 * from_film);
        CHECK(alone.lux_stderr < 0.01 * from_film);
    }
}

TEST_CASE("readings are the same bits on any number of threads and after resuming") {
    Scene scene = room_with_everything();
    add_meters(scene);
    const World world(scene);
    RenderOptions options;
    options.passes = 2;
    options.threads = 1;
    const RenderResult one = render_frame(scene, world, options);
    options.threads = 3;
    const RenderResult three = render_frame(scene, world, options);
    CHECK(one.meters.state().sums == three.meters.state().sums);

    options.passes = 1;
    const RenderResult half = render_frame(scene, world, options);
    options.passes = 2;
    options.resume_from = Checkpoint{half.film.state(), half.meters.state()};
    const RenderResult whole = render_frame(scene, world, options);
    CHECK(whole.meters.state().sums == one.meters.state().sums);
    CHECK(whole.meters.reading(1).lux_stderr == one.meters.reading(1).lux_stderr);
}

TEST_CASE("a meter changes nothing in the frame") {
    Scene scene = room_with_everything();
    const RenderOptions options;
    const RenderResult without = render_frame(scene, World(scene), options);
    add_meters(scene);
    const RenderResult with = render_frame(scene, World(scene), options);
    CHECK(with.film.sums() == without.film.sums());
}
