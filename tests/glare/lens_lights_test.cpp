// The lamps that the lens sees, in rooms where their places and strengths are known.
#include "glare/lens_lights.h"

#include <doctest/doctest.h>

#include <cmath>

#include "render/render_frame.h"
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

std::vector<LensLight> mirrored(const std::vector<LensLight>& lights) {
    std::vector<LensLight> images;
    for (const LensLight& light : lights) {
        if (light.way == SeenWay::kInMirror) images.push_back(light);
    }
    return images;
}

// A black room with a floor of this kind, and a lamp above it.
std::string floor_text(const std::string& floor) {
    return "[room]\nsize_m = [6, 5, 3]\nreflectance = 0\n[[surface]]\nname = \"floor\"\n"
           "reflectance = 0\n" +
           floor + bare_lamp("[0.4, 1.5, -1]", 1257);
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

// Fresnel's reflectance at the angle of the image (E32), n = 1.5.
TEST_CASE("a lamp over a wet floor is also seen under it, dimmed as Fresnel says") {
    const auto images = mirrored(lights_of(scene_of(floor_text("coat = 0.8\nroughness = 0\n"))));
    REQUIRE(images.size() == 1);
    const double d2 = 0.4 * 0.4 + 2.5 * 2.5 + 3 * 3;
    const double cos_i = 2.5 / std::sqrt(d2);
    const double cos_t = std::sqrt(1 - (1 - cos_i * cos_i) / 2.25);
    const double rs = (cos_i - 1.5 * cos_t) / (cos_i + 1.5 * cos_t);
    const double rp = (1.5 * cos_i - cos_t) / (1.5 * cos_i + cos_t);
    const double reflected = 0.8 * 0.5 * (rs * rs + rp * rp);
    CHECK(images[0].place.y == doctest::Approx(-2.5).epsilon(2e-3));
    CHECK(images[0].passed.mean() == doctest::Approx(reflected).epsilon(0.01));
    CHECK(images[0].lux == doctest::Approx(kCandela / d2).epsilon(0.02));
}

TEST_CASE("the blur in a gloss has the light of the picture of it") {
    // The floor is black under its varnish and the lamp is out of the picture, so the picture shows
    // the blur alone. Its light at the lens is the sum of luminance times solid angle.
    for (const char* roughness : {"0.1", "0.2", "0.3"}) {
        CAPTURE(roughness);
        Scene scene =
            scene_of(floor_text("coat = 1\nroughness = " + std::string(roughness) + "\n"));
        const auto images = mirrored(lights_of(scene));
        REQUIRE(images.size() == 1);
        scene.camera.frame = Frame(glm::normalize(Vec3(0.1F, -0.7F, -1)));
        scene.camera.focal_length = 0.018F;
        const World world(scene);
        RenderOptions options;
        options.passes = 24;
        options.transport = Transport::kCamera;
        const RenderResult result = render_frame(scene, world, options);
        const double pitch = 36.0 / 48;
        double lux = 0;
        for (int i = 0; i < 48 * 32; ++i) {
            const double x = pitch * (i % 48 + 0.5 - 24);
            const double y = pitch * (i / 48 + 0.5 - 16);
            const double r = std::sqrt(x * x + y * y + 18 * 18);
            lux += result.film.resolve(i).y * pitch * pitch * 18 / (r * r * r);
        }
        // Left out: 2 % of the lobe's tail in the sum, some of it in the picture too. The noise of
        // the film's sum is below 1 %.
        const LensLight& blur = images[0];
        CHECK(blur.lux * static_cast<double>(blur.passed.mean()) ==
              doctest::Approx(lux).epsilon(0.05));
        CHECK(blur.radius > 0.5 * std::pow(std::stod(roughness), 2));
        CHECK(blur.in_film);
    }
}

TEST_CASE("a rough floor mirrors no lamp, and a matt one neither") {
    CHECK(mirrored(lights_of(scene_of(floor_text("coat = 1\nroughness = 0.6\n")))).empty());
    CHECK(mirrored(lights_of(scene_of(floor_text("")))).empty());
}

TEST_CASE("a window shines into the lens like a panel of its size") {
    const std::string set =
        "[room]\nsize_m = [6, 5, 3]\nreflectance = 0\n"
        "[[window]]\nname = \"window\"\nwall = \"wall_back\"\ncentre_m = [0, 1]\nsize_m = [0.8, "
        "0.6]\n"
        "luminance_cd_m2 = 2000\n";
    double lux = 0;
    for (const LensLight& light : lights_of(scene_of(set))) lux += light.lux;
    // 0.48 m² at 4.5 m; the corners a little less: 1 %.
    CHECK(lux == doctest::Approx(2000 * 0.48 / (4.5 * 4.5)).epsilon(0.015));
}
