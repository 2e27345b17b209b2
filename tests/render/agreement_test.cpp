// Different techniques make the same picture: each test compares two estimates of the same light
// that share little code except the materials.
#include "render/agreement.h"

#include <doctest/doctest.h>

#include "fixtures/emitters.h"

using namespace dapple;
using namespace dapple::test;

TEST_CASE("light walks and camera walks agree on a room without glass, region by region" *
          doctest::test_suite("slow")) {
    const Scene scene = room_without_glass();
    const RenderResult camera = render(scene, Transport::kCamera, 48, 0, 1);
    const RenderResult walks = render(scene, Transport::kWalks, 48, 8, 2);
    check_agreement(scene, camera, walks, 0.008);
}

TEST_CASE("light walks and camera walks agree through a lens of glass" *
          doctest::test_suite("slow")) {
    Scene scene = room_without_glass();
    scene.title = "room through a lens of glass";
    scene.camera.focus_distance = 2;
    scene.camera.f_number = 2.8F;
    scene.camera.lens.draws = true;
    for (const char* name : {"wide", "portrait"}) {
        scene.camera.lens.name = name;
        const RenderResult camera = render(scene, Transport::kCamera, 80, 0, 1);
        const RenderResult walks = render(scene, Transport::kWalks, 56, 6, 2);
        const RenderResult partition = render(scene, Transport::kPartition, 56, 6, 3);
        check_agreement(scene, camera, walks, 0.012);
        check_agreement(scene, camera, partition, 0.012);
    }
}

TEST_CASE("light walks and camera walks agree on photometric files, barn doors, snoots and gels" *
          doctest::test_suite("slow")) {
    Scene scene = room_without_glass();
    scene.title = "room with a file, doors and a snoot";
    Fixture file = fixture_of(FixtureForm::kSpot, Point(-0.6F, 0.2F, -0.8F), Point(1, -1, -2), 800);
    file.name = "file";
    file.photometry = uneven_photometry();
    file.source_diameter = 0.3F;
    Fixture doors = fixture_of(FixtureForm::kSpot, Point(1.4F, 0.8F, 0.4F), Point(0, -1, -2), 600);
    doors.name = "doors";
    doors.source_diameter = 0.25F;
    doors.beam_angle = 1.2F;
    doors.field_angle = 1.7F;
    doors.barn_doors = {1.4F, 2.0F, 1.2F, 1.6F};
    doors.gel.shift_mired = 100;
    Fixture snoot = fixture_of(FixtureForm::kSpot, Point(-1.4F, 0.9F, 1), Point(-1, -1, -2), 600);
    snoot.name = "snoot";
    snoot.source_diameter = 0.2F;
    snoot.snoot_diameter = 0.25F;
    snoot.snoot_length = 0.3F;
    scene.fixtures = {file, doors, snoot};
    scene.housing_material = add_material(scene, lambertian("housing", 0.04F));
    const RenderResult camera = render(scene, Transport::kCamera, 64, 0, 21);
    const RenderResult walks = render(scene, Transport::kWalks, 32, 2, 22);
    // Two tiles see the bodies of lamps, centimetres from their light, and remain noisy. The other
    // tiles are known to 1 %.
    check_agreement(scene, camera, walks, 0.04);
}

TEST_CASE("light walks and camera walks agree on glass, water, cloth, panes, varnish and metal" *
          doctest::test_suite("slow")) {
    const Scene scene = room_with_everything();
    const RenderResult camera = render(scene, Transport::kCamera, 1200, 0, 3);
    const RenderResult walks = render(scene, Transport::kWalks, 400, 2, 4);
    check_agreement(scene, camera, walks, 0.03);
}

TEST_CASE("photons and camera walks agree in a mirror, in a wet floor and through glass" *
          doctest::test_suite("slow")) {
    // The lamp is large enough that camera walks find it in a mirror.
    Scene mirrors = room_without_glass();
    mirrors.title = "room with a mirror and a wet floor";
    Fixture bare = fixture_of(FixtureForm::kBare, Point(0.4F, 0.6F, 1), Point(0), 300);
    bare.source_diameter = 0.8F;
    mirrors.fixtures = {bare};
    Material metal = lambertian("mirror", 0.9F);
    metal.kind = MaterialKind::kConductor;
    Material wet = lambertian("wet", 0.2F);
    wet.kind = MaterialKind::kCoated;
    wet.coat = 1;
    wet.roughness = 0.3F;
    const auto board = [&](const Point& centre, const Vec3& facing, const Material& material) {
        Board b;
        b.centre = centre;
        b.facing = glm::normalize(facing);
        b.size = Vec2(3, 2);
        b.material = add_material(mirrors, material);
        mirrors.boards.push_back(b);
    };
    board(Point(0, 0, -1.5F), Vec3(0.1F, 0.05F, 1), metal);
    board(Point(0, -1.45F, 0.5F), Vec3(0, 1, 0), wet);
    Scene glass = room_with_everything();
    for (const Scene& scene : {mirrors, glass}) {
        // Through glass, camera walks find a few bright paths only now and then; until they have,
        // both the mean and its error are too low.
        const int camera_passes = scene.glasses.empty() ? 500 : 2000;
        const RenderResult camera = render(scene, Transport::kCamera, camera_passes, 0, 5);
        // Photons are spread over the width of a pixel. In corners their discs extend beyond the
        // wall, so some thousandths of the light there are lost.
        const RenderResult full = render(scene, Transport::kFull, 150, 4, 6);
        check_agreement(scene, camera, full, scene.glasses.empty() ? 0.005 : 0.05);
    }
}

// Soft splats have larger weights, and the other techniques have smaller ones (E91). Footprints
// cross the borders of regions, so the whole frame is compared.
TEST_CASE("spreading splats over discs with larger weights does not change the light" *
          doctest::test_suite("slow")) {
    for (const Scene& scene : {room_without_glass(), room_with_everything()}) {
        const World world(scene);
        RenderOptions options;
        options.footprint_px = 0;
        options.transport = Transport::kCamera;
        options.passes = scene.glasses.empty() ? 60 : 1000;
        const auto camera = render_frame(scene, world, options).film.frame_luminance();
        options.footprint_px = 2.5;
        options.transport = Transport::kFull;
        options.passes = 100;
        options.light_walks_per_pixel = 4;
        options.seed = 2;
        const auto soft = render_frame(scene, world, options).film.frame_luminance();
        const double se = std::hypot(camera.stderr_of_mean, soft.stderr_of_mean);
        CAPTURE(scene.title);
        CAPTURE(camera.mean);
        CAPTURE(soft.mean);
        CHECK(std::abs(camera.mean - soft.mean) < 3.3 * se);
        CHECK(se < 0.005 * camera.mean);
    }
}

TEST_CASE("a walk that stands for dispersed wavelengths adds no light" *
          doctest::test_suite("slow")) {
    Scene scene = room_with_everything();
    scene.fixtures.resize(1);
    scene.fixtures[0].source_diameter = 0.02F;
    const World world(scene);
    RenderOptions options;
    options.passes = 100;
    options.light_walks_per_pixel = 4;
    options.footprint_px = 0;
    const RenderResult sharp = render_frame(scene, world, options);
    options.footprint_px = 2.5;
    const RenderResult soft = render_frame(scene, world, options);
    // Both films use the same walks, so most of the noise cancels. Near total reflection,
    // wavelengths take other ways than their hero. The difference must be within 0.3 % of all
    // light.
    CHECK(soft.film.frame_luminance().mean ==
          doctest::Approx(sharp.film.frame_luminance().mean).epsilon(0.003));
}
