// The techniques of the engine make the same picture: two estimates of the same light that share
// little but the materials.
#include "render/agreement.h"

#include <doctest/doctest.h>

#include "fixtures/emitters.h"

using namespace dapple;
using namespace dapple::test;

TEST_CASE("light walks and camera walks agree on a room without glass, region by region") {
    const Scene scene = room_without_glass();
    const RenderResult camera = render(scene, Transport::kCamera, 48, 0, 1);
    const RenderResult walks = render(scene, Transport::kWalks, 48, 8, 2);
    check_agreement(scene, camera, walks, 0.008);
}

TEST_CASE("they agree on lamps with photometric files, barn doors, snoots and gels" *
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
    // Two tiles see lamps with bodies centimetres from them, which stay grainy; the others are sure
    // to 1 %.
    check_agreement(scene, camera, walks, 0.04);
}

TEST_CASE("they agree through glass, water, cloth, panes, varnish and metal" *
          doctest::test_suite("slow")) {
    const Scene scene = room_with_everything();
    const RenderResult camera = render(scene, Transport::kCamera, 1200, 0, 3);
    const RenderResult walks = render(scene, Transport::kWalks, 400, 2, 4);
    check_agreement(scene, camera, walks, 0.03);
}

TEST_CASE("photons agree with them in a mirror, a wet floor and through glass" *
          doctest::test_suite("slow")) {
    // Lamps large enough that camera walks find them by way of a mirror.
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
        const RenderResult camera = render(scene, Transport::kCamera, 500, 0, 5);
        // Photons are spread over a pixel: in corners their discs reach past the wall, and some
        // thousandths of the light there are lost.
        const RenderResult full = render(scene, Transport::kFull, 150, 4, 6);
        // Through glass a few bright paths make the camera's walks unsure.
        check_agreement(scene, camera, full, scene.glasses.empty() ? 0.005 : 0.05);
    }
}

// Where soft splats count for more, so that the other techniques count for less (E73). Footprints
// reach over the borders of regions, so the whole frame is compared.
TEST_CASE("light is the same where splats are spread over discs and count for more" *
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

TEST_CASE("carrying dispersed wavelengths together makes no light" * doctest::test_suite("slow")) {
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
    // The same walks, so most of chance cancels. Near total reflection the wavelengths take other
    // ways than their hero: within 0.3 % of all light, none goes astray.
    CHECK(soft.film.frame_luminance().mean ==
          doctest::Approx(sharp.film.frame_luminance().mean).epsilon(0.003));
}
