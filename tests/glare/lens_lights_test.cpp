// The lamps that the lens sees, in rooms where their places and strengths are known.
#include "glare/lens_lights.h"

#include <doctest/doctest.h>

#include <cmath>

#include "scene/build_scene.h"
#include "set/read_set.h"

using namespace dapple;

namespace {

Scene scene_of(const std::string& more) {
    Problems problems;
    const SetDescription set = read_set_text(
        "[camera]\nposition = [0, 1, 2]\naim = [0, 1, 0]\nframe_px = [48, 32]\n" + more,
        "lights.toml",
        problems);
    const Scene scene = build_scene(
        set,
        [](const PictureSource& picture) -> Texture { throw FileError(picture.path, "none"); },
        problems);
    for (const Problem& p : problems.all()) FAIL_CHECK(to_string(p));
    return scene;
}

std::string bare_lamp(const std::string& position, int lumens) {
    return "[[fixture]]\nname = \"bulb\"\nform = \"bare\"\nsource = \"flat\"\nsource_mm = 20\n"
           "position = " +
           position + "\noutput_lm = " + std::to_string(lumens) + "\n";
}

std::vector<LensLight> lights_of(const Scene& scene) {
    const World world(scene);
    const Setup setup(scene, world, false);
    return find_lens_lights(setup);
}

constexpr int kLumens = 1257;
constexpr double kCandela = kLumens / (4 * kPi);

}  // namespace

TEST_CASE("a lamp in the open gives the lens its intensity over the square of the distance") {
    const auto lights = lights_of(scene_of(bare_lamp("[1, 1, -1]", kLumens)));
    REQUIRE(lights.size() == 1);
    CHECK(lights[0].way == SeenWay::kDirect);
    // The face of the sphere is nearer than its middle by 1 cm.
    CHECK(lights[0].lux == doctest::Approx(kCandela / 10).epsilon(0.01));
    CHECK(lights[0].place.x == doctest::Approx(1).epsilon(0.01));
    CHECK(lights[0].place.z == doctest::Approx(3).epsilon(0.01));
    CHECK(lights[0].passed.min() == 1);
}

// Beer and Lambert over the root of 10 m, with Koschmieder's extinction ln(50) / visibility.
TEST_CASE("haze dims a lamp that shines into the lens") {
    const std::string haze = "[haze]\nvisibility_m = 20\n";
    const auto lights = lights_of(scene_of(bare_lamp("[1, 1, -1]", kLumens) + haze));
    REQUIRE(lights.size() == 1);
    const double passed = std::exp(-std::log(50.0) / 20 * std::sqrt(10.0));
    CHECK(lights[0].passed.min() == doctest::Approx(passed).epsilon(0.003));
    CHECK(lights[0].passed.max() == doctest::Approx(passed).epsilon(0.003));
}

TEST_CASE("a lamp behind the camera or behind a flag does not shine into the lens") {
    CHECK(lights_of(scene_of(bare_lamp("[1, 1, 3]", kLumens))).empty());
    const std::string flag =
        "[[flag]]\nname = \"flag\"\nposition = [0.5, 1, 0.5]\naim = [0, 1, 2]\nsize_m = [0.6, "
        "0.6]\n";
    CHECK(lights_of(scene_of(bare_lamp("[1, 1, -1]", kLumens) + flag)).empty());
}

TEST_CASE("a lamp in a mirror is seen where the mirror has it, less what the mirror keeps") {
    // A mirror on the back wall at z = -2.5; the lamp is behind the camera and off to the side.
    const std::string set =
        "[room]\nsize_m = [6, 5, 3]\nreflectance = 0\n"
        "[[surface]]\nname = \"wall_back\"\nmetal = true\nroughness = 0\n"
        "reflectance = 0.9\n" +
        bare_lamp("[1.5, 1, 2.4]", kLumens);
    const auto lights = lights_of(scene_of(set));
    REQUIRE(lights.size() == 1);
    CHECK(lights[0].way == SeenWay::kInMirror);
    // As from (1.5, 1, -7.4): 1.5 m to the side and 9.4 m ahead.
    CHECK(lights[0].place.x == doctest::Approx(1.5).epsilon(2e-3));
    CHECK(lights[0].place.z == doctest::Approx(9.4).epsilon(2e-3));
    CHECK(lights[0].lux == doctest::Approx(kCandela / (1.5 * 1.5 + 9.4 * 9.4)).epsilon(0.02));
    CHECK(lights[0].passed.mean() == doctest::Approx(0.9).epsilon(0.02));
}

TEST_CASE("a pane between lamp and lens lets through what two faces of glass do") {
    // Solid glass, 6 mm; (1 - R)²/(1 - R²) is 0.918 at n = 1.52, without the way between its faces
    // (1 - R)² = 0.916.
    const std::string pane =
        "[[glass]]\nname = \"pane\"\nform = \"pane\"\nposition = [0.5, 0.5, 0.5]\n"
        "height_mm = 1000\nwidth_mm = 1000\nwall_mm = 6\n";
    const auto lights = lights_of(scene_of(bare_lamp("[1, 1, -1]", kLumens) + pane));
    REQUIRE(lights.size() == 1);
    CHECK(lights[0].way == SeenWay::kThroughGlass);
    CHECK(lights[0].passed.mean() == doctest::Approx(0.91).epsilon(0.02));
    // The pane moves the lamp's image nearer by a third of its thickness.
    CHECK(lights[0].lux == doctest::Approx(kCandela / 10).epsilon(0.015));
}

TEST_CASE("a large face is taken in parts that add up to its light") {
    const std::string panel =
        "[[fixture]]\nname = \"panel\"\nform = \"panel\"\npanel_m = [0.6, 0.6]\n"
        "source = \"flat\"\nposition = [0, 1, -1]\naim = [0, 1, 2]\noutput_lm = 3142\n";
    const auto lights = lights_of(scene_of(panel));
    CHECK(lights.size() == 16);
    double lux = 0;
    for (const LensLight& light : lights) lux += light.lux;
    // Φ/π cd along its axis at 3 m; parts off the axis give a little less: 1.3 %.
    CHECK(lux == doctest::Approx(3142 / kPi / 9).epsilon(0.02));
}
