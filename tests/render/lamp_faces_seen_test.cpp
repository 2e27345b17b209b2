#include <doctest/doctest.h>

#include <algorithm>

#include "render/prepare/find_lamp_faces_seen.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A lamp 3 m in front of the lens that looks at it, in a frame of 120 × 80 px; a pixel is 9 mm wide
// at its distance.
Scene lamp_in_frame(float diameter) {
    Scene scene;
    scene.camera = camera_at(Point(0, 1, 3), Point(0, 1, 0), 120, 80);
    const MaterialId grey = add_material(scene, lambertian("grey", 0.5F));
    scene.room.push_back(box_room(Vec3(4, 4, 4), grey));
    Fixture lamp;
    lamp.name = "lamp";
    lamp.form = FixtureForm::kBare;
    lamp.position = Point(0.3F, 1, 0);
    lamp.source_diameter = diameter;
    lamp.output_value = 100;
    scene.fixtures.push_back(lamp);
    return scene;
}

std::vector<int32_t> faces_of(const Scene& scene) {
    return find_lamp_faces_seen(scene, World(scene), Lens(scene.camera));
}

double pixels_of(const Scene& scene) {
    const std::vector<int32_t> faces = faces_of(scene);
    return static_cast<double>(std::count(faces.begin(), faces.end(), 0));
}

}  // namespace

TEST_CASE("a face much smaller than a pixel is found, with the pixels around it") {
    const double pixels = pixels_of(lamp_in_frame(0.001F));
    CHECK(pixels >= 4);
    CHECK(pixels <= 9);
}

TEST_CASE("a large face is found whole") {
    const Scene scene = lamp_in_frame(0.4F);
    const double pixel_m = static_cast<double>(Lens(scene.camera).pixel_width_at(3));
    const double radius = 0.2 / pixel_m;
    // One pixel more all round, and half a pixel for those that are cut.
    CHECK(pixels_of(scene) > kPi * radius * radius);
    CHECK(pixels_of(scene) < kPi * (radius + 3) * (radius + 3));
}

TEST_CASE("a face behind a wall, outside the frame, of a point or of a window is not marked") {
    Scene hidden = lamp_in_frame(0.1F);
    hidden.fixtures[0].position.z = -5;
    CHECK(pixels_of(hidden) == 0);
    Scene outside = lamp_in_frame(0.1F);
    outside.fixtures[0].position.x = 3.5F;
    CHECK(pixels_of(outside) == 0);
    CHECK(pixels_of(lamp_in_frame(0)) == 0);
    Scene window = lamp_in_frame(0.1F);
    window.fixtures[0].is_window = true;
    CHECK(pixels_of(window) == 0);
}

TEST_CASE("a face out of focus is marked as far as its blur reaches") {
    Camera camera;
    camera.focal_length = 0.05F;
    camera.f_number = 2;
    camera.focus_distance = 2;
    // c = (0.05/2) 0.05 · 2/(4 · 1.95) = 0.3205 mm
    CHECK(blur_diameter(camera, 4) == doctest::Approx(0.3205e-3).epsilon(1e-3));
    CHECK(blur_diameter(camera, 2) == 0);
    camera.focus_distance = 0;  // everything sharp
    CHECK(blur_diameter(camera, 4) == 0);

    Scene scene = lamp_in_frame(0.001F);
    scene.camera.f_number = 1.4F;
    scene.camera.focus_distance = 0.4F;
    const double px = static_cast<double>(scene.camera.sensor.x) / 120;
    const double radius = 1 + 0.5 * blur_diameter(scene.camera, 3) / px;
    CHECK(radius > 4);
    CHECK(pixels_of(scene) == doctest::Approx(kPi * (radius + 0.5) * (radius + 0.5)).epsilon(0.1));
}
