// Haze in pictures and meters: against closed forms, and techniques against each other.
#include <doctest/doctest.h>

#include <cmath>

#include "render/agreement.h"
#include "render/furnace.h"

using namespace dapple;
using namespace dapple::test;

namespace {

void add_haze(Scene& scene, float visibility, float forward) {
    scene.haze.extinction = 3.912F / visibility;
    scene.haze.forward = forward;
}

// A lamp of 1000 cd, `distance` m from the camera and at `degrees` from where it looks, without
// anything else but a black board `length` m away. All pixels look nearly the same way.
Scene lamp_in_haze(float distance, float degrees, float length) {
    Scene scene;
    scene.title = "a lamp in haze";
    scene.camera = camera_at(Point(0), Point(0, 0, 1), 6, 4);
    scene.camera.focal_length = 5;
    const float angle = degrees * kPiF / 180;
    const Point place(distance * std::sin(angle), 0, distance * std::cos(angle));
    Fixture lamp = fixture_of(FixtureForm::kBare, place, Point(0), 4000 * kPi);
    lamp.source_diameter = 0;
    scene.fixtures = {lamp};
    Board board;
    board.centre = Point(0, 0, length);
    board.facing = Normal(0, 0, -1);
    board.size = Vec2(1);
    board.material = add_material(scene, lambertian("black", 0));
    scene.boards.push_back(board);
    add_region(scene, "all", glm::ivec4(0, 0, 6, 4));
    return scene;
}

Film::MeanAndError seen_luminance(const Scene& scene, int passes, int max_bounces) {
    const World world(scene);
    RenderOptions options;
    options.passes = passes;
    options.max_bounces = max_bounces;
    return render_frame(scene, world, options).film.region_luminance(0);
}

// A lamp behind a ball of glass and one beside it, in thick haze. The lamps are so large that
// camera walks find them through the glass.
Scene hazy_glass() {
    Scene scene = room_with_everything();
    scene.title = "glass in haze";
    add_haze(scene, 12, 0.6F);
    return scene;
}

}  // namespace

TEST_CASE("light scattered once from a small lamp is as bright as its closed form") {
    struct Row {
        float visibility, distance, degrees, length, forward;
        double luminance;  // for 1 cd
    };
    // The integral of Sun et al. 2005, by quadrature in double precision; forward scattering by
    // quadrature.
    const Row rows[] = {{100, 5, 15, 20, 0, 0.1284033898 * 3.912 / 100},
                        {40, 5, 15, 20, 0, 0.0854253703 * 3.912 / 40},
                        {20, 3, 90, 10, 0, 0.0101483335 * 3.912 / 20},
                        {40, 8, 5, 12, 0, 0.1355309133 * 3.912 / 40},
                        {40, 5, 15, 20, 0.6F, 0.107726 * 3.912 / 40},
                        {40, 5, 15, 20, 0.9F, 0.055667 * 3.912 / 40}};
    for (const Row& row : rows) {
        Scene scene = lamp_in_haze(row.distance, row.degrees, row.length);
        add_haze(scene, row.visibility, row.forward);
        const Film::MeanAndError seen = seen_luminance(scene, 100, 1);
        CAPTURE(row.visibility);
        CAPTURE(row.degrees);
        CAPTURE(row.forward);
        CAPTURE(seen.mean);
        CAPTURE(seen.stderr_of_mean);
        const double wanted = 1000 * row.luminance;
        CHECK(std::abs(seen.mean - wanted) < 3.3 * seen.stderr_of_mean + 1e-3 * wanted);
        CHECK(seen.stderr_of_mean < 0.01 * wanted);
    }
}

TEST_CASE("a surface in haze is dimmed by Beer and Lambert on both ways") {
    // Light that haze scatters is left out: no bounce may be in haze where only surfaces scatter,
    // so the haze here is a cloud that the camera does not look through, and the lamp shines
    // through.
    Scene scene;
    scene.title = "a cloud before a lamp";
    scene.camera = camera_at(Point(0, 0, -4), Point(0, 0, 0), 6, 4);
    scene.camera.focal_length = 2;
    Board wall;
    wall.facing = Normal(0, 0, -1);
    wall.size = Vec2(0.6F);
    wall.material = add_material(scene, lambertian("wall", 0.5F));
    scene.boards.push_back(wall);
    Fixture spot = fixture_of(FixtureForm::kSpot, Point(3, 0, -3), Point(0), 1000);
    spot.source_diameter = 0;
    scene.fixtures = {spot};
    add_region(scene, "all", glm::ivec4(0, 0, 6, 4));
    const Film::MeanAndError clear = seen_luminance(scene, 4, 1);
    // A ball of radius 0.5 m halfway: along its diameter the depth is σ 4 r/3.
    scene.haze.boxes.push_back({"cloud", Point(1.5F, 0, -1.5F), Vec3(0.5F), 0, 0.9F});
    const Film::MeanAndError dimmed = seen_luminance(scene, 4, 1);
    CHECK(dimmed.mean / clear.mean == doctest::Approx(std::exp(-0.9 * 2.0 / 3)).epsilon(0.005));
}

TEST_CASE("haze is invisible in a furnace" * doctest::test_suite("figures")) {
    // Every order of scattering counts: the box is two metres wide.
    for (const auto& [visibility, forward] :
         {std::pair{10.0F, 0.0F}, {3.912F, 0.0F}, {3.912F, 0.8F}}) {
        Scene scene = furnace(kFurnaceLuminance);
        add_haze(scene, visibility, forward);
        add_region(scene, "all", glm::ivec4(0, 0, 4, 3));
        for (const Transport transport : {Transport::kCamera, Transport::kFull}) {
            const RenderResult result = render_furnace(scene, transport, 400);
            const Film::MeanAndError seen = result.film.region_luminance(0);
            CAPTURE(visibility);
            CAPTURE(forward);
            CAPTURE(seen.mean);
            CAPTURE(seen.stderr_of_mean);
            CHECK(std::abs(seen.mean - kFurnaceLuminance) < 3.3 * seen.stderr_of_mean);
            CHECK(seen.stderr_of_mean < 0.005 * kFurnaceLuminance);
        }
    }
}

TEST_CASE("all techniques, camera walks alone and the partition agree in haze" *
          doctest::test_suite("slow")) {
    // Glass, cloth and a pane in thick haze.
    // The last number is the largest standard error that a tile may have.
    const Scene scene = hazy_glass();
    const RenderResult full = render(scene, Transport::kFull, 210, 2, 3);
    const RenderResult camera = render(scene, Transport::kCamera, 300, 0, 4);
    check_agreement(scene, camera, full, 0.03);
    const RenderResult partition = render(scene, Transport::kPartition, 210, 2, 5);
    check_agreement(scene, partition, full, 0.03);
}

TEST_CASE("meters read the same by camera walks alone and by all techniques in haze" *
          doctest::test_suite("slow")) {
    Scene scene = hazy_glass();
    add_meters(scene);
    const MeterResult walks = read_meters_by(scene, Transport::kFull, 16, 7);
    const MeterResult sensor = read_meters_by(scene, Transport::kCamera, 32, 8);
    check_agreement(scene, walks, sensor, 0.03);
}
