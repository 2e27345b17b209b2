// Rules of the trade for lighting a wall through a jar, on the set jar-and-wall. Common practice,
// no source. Rules with numbers are in the table, with the geometry behind them.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "develop/exposure.h"
#include "geometry/world.h"
#include "published/published.h"
#include "render/read_meters.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"
#include "scene/build_scene.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "set/read_set.h"

namespace trade_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Facts of the trade");
const char* const kPractice = "common practice, no source";

constexpr int kWidth = 240;  // px; one is 1.6 cm on the wall
constexpr int kLeft = 73;    // the part of the wall with the pattern
constexpr int kRight = 147;
constexpr int kTop = 53;
constexpr int kBottom = 100;

Scene jar_and_wall() {
    Problems problems;
    const std::string path =
        std::string(DAPPLE_SOURCE_DIR) + "/scenes/jar-and-wall/jar-and-wall.toml";
    const SetDescription set = read_set(path, problems);
    Scene scene = build_scene(
        set,
        [](const PictureSource& picture) -> Texture { throw FileError(picture.path, "none"); },
        problems);
    REQUIRE(problems.empty());
    scale_frame(scene, kWidth);
    return scene;
}

// The level directions from the lamp to the jar, and across the beam.
Direction along_beam(const Scene& scene) {
    const Vec3 d = scene.glasses[0].position - scene.fixtures[0].position;
    return glm::normalize(Vec3(d.x, 0, d.z));
}
Direction across_beam(const Scene& scene) {
    const Direction d = along_beam(scene);
    return Direction(-d.z, 0, d.x);
}
// Level distance, m.
float lamp_to_jar(const Scene& scene) {
    const Vec3 d = scene.glasses[0].position - scene.fixtures[0].position;
    return glm::length(Vec3(d.x, 0, d.z));
}

// Luminance along the wall from left to right, the mean of a band of rows.
using Profile = std::vector<double>;

Profile wall_profile(const Scene& scene, uint64_t seed = 1) {
    const World world(scene);
    RenderOptions options;
    options.passes = 8;
    options.light_walks_per_pixel = 3;
    options.footprint_px = 0;
    options.seed = seed;
    const RenderResult result = render_frame(scene, world, options);
    Profile profile;
    for (int x = kLeft; x < kRight; ++x) {
        double sum = 0;
        for (int y = kTop; y < kBottom; ++y) sum += result.film.resolve(y * kWidth + x).y;
        profile.push_back(sum / (kBottom - kTop));
    }
    return profile;
}

// The texture of a profile: the profile less its mean over 15 px around.
Profile texture_of(const Profile& profile) {
    Profile texture;
    const int n = static_cast<int>(profile.size());
    for (int i = 0; i < n; ++i) {
        double sum = 0;
        int count = 0;
        for (int j = std::max(0, i - 7); j <= std::min(n - 1, i + 7); ++j, ++count) {
            sum += profile[static_cast<size_t>(j)];
        }
        texture.push_back(profile[static_cast<size_t>(i)] - sum / count);
    }
    return texture;
}

double strength(const Profile& p) {
    double sum = 0;
    for (const double v : p) sum += v * v;
    return std::sqrt(sum / static_cast<double>(p.size()));
}

// Correlation of `a`, moved to the right by `shift` px, with `b`.
double correlation(const Profile& a, const Profile& b, int shift = 0) {
    double ab = 0;
    double aa = 0;
    double bb = 0;
    for (int i = 0; i < static_cast<int>(a.size()); ++i) {
        const int j = i + shift;
        if (j < 0 || j >= static_cast<int>(b.size())) continue;
        const double x = a[static_cast<size_t>(i)];
        const double y = b[static_cast<size_t>(j)];
        ab += x * y;
        aa += x * x;
        bb += y * y;
    }
    return ab / std::sqrt(aa * bb);
}

// Width in px of the shadow of the jar's rims: from the first to the last place that has lost four
// tenths of its light.
double shadow_width(const Profile& with_jar, const Profile& without) {
    int first = -1;
    int last = -1;
    for (int i = 0; i < static_cast<int>(with_jar.size()); ++i) {
        const auto k = static_cast<size_t>(i);
        if (with_jar[k] > 0.6 * without[k]) continue;
        if (first < 0) first = i;
        last = i;
    }
    return last - first + 1;
}

Scene with_jar_moved(const Vec3& by) {
    Scene scene = jar_and_wall();
    scene.glasses[0].position += by;
    return scene;
}

}  // namespace

TEST_CASE("moving the glass along the beam changes the size of the pattern" *
          doctest::test_suite("slow")) {
    const Scene scene = jar_and_wall();
    Scene bare = scene;
    bare.glasses.clear();
    const Profile without = wall_profile(bare);
    const double before = shadow_width(wall_profile(scene), without);
    const Scene farther = with_jar_moved(0.2F * along_beam(scene));
    const double after = shadow_width(wall_profile(farther), without);
    // Tangents from the lamp to the jar: half-width on the wall ∝ tan asin(r/a).
    const double r = 0.5 * static_cast<double>(scene.glasses[0].diameter);
    const auto tangent = [&](const Scene& s) {
        return std::tan(std::asin(r / static_cast<double>(lamp_to_jar(s))));
    };
    kSubject.exact("jar 20 cm farther from the lamp: its shadow over the one before",
                   kPractice,
                   "",
                   figure(tangent(farther) / tangent(scene), 3),
                   after / before,
                   {0.05, "two edges, each read to a pixel of 40"});
}

TEST_CASE("moving the glass across shifts the pattern, turning it changes the pattern" *
          doctest::test_suite("slow")) {
    const Scene scene = jar_and_wall();
    const Profile before = texture_of(wall_profile(scene, 1));
    // The same set with other walks shows how little chance changes.
    CHECK(correlation(before, texture_of(wall_profile(scene, 2))) > 0.99);

    const float shift_m = 0.008F;
    const Profile shifted =
        texture_of(wall_profile(with_jar_moved(shift_m * across_beam(scene)), 3));
    int best = 0;
    // Within half a rib's stripe, which is 9 px wide. At a larger shift the next stripe matches.
    for (int s = -4; s <= 4; ++s) {
        if (correlation(before, shifted, s) > correlation(before, shifted, best)) best = s;
    }
    // Similar triangles from the lamp; the wall is oblique to the beam, and a pixel is 1.63 cm.
    const Direction beam = along_beam(scene);
    const float lamp_to_wall = (scene.fixtures[0].position.z + 2.0F) / -beam.z;
    const float on_wall = shift_m * lamp_to_wall / lamp_to_jar(scene) / -beam.z;
    const double expected_px = static_cast<double>(on_wall) / 0.0163;
    CAPTURE(best);
    CHECK(std::abs(best - expected_px) <= 1.0);
    CHECK(correlation(before, shifted, best) > correlation(before, shifted, 0) + 0.1);

    Scene turned = scene;
    turned.glasses[0].turn += static_cast<float>(radians_from_degrees(3.75));
    CHECK(correlation(before, texture_of(wall_profile(turned, 4))) < 0.5);
    // With 24 ribs a turn of 15° moves each rib to the place of its neighbour.
    turned.glasses[0].turn += static_cast<float>(radians_from_degrees(11.25));
    CHECK(correlation(before, texture_of(wall_profile(turned, 5))) > 0.99);
}

TEST_CASE("a larger apparent source blurs the pattern, and so does a cloth" *
          doctest::test_suite("slow")) {
    const Scene scene = jar_and_wall();
    const double sharp = strength(texture_of(wall_profile(scene)));
    Scene large = scene;
    large.fixtures[0].source_diameter = 0.06F;
    CHECK(strength(texture_of(wall_profile(large))) < 0.6 * sharp);

    Scene veiled = scene;
    Board cloth;
    cloth.name = "cloth";
    cloth.kind = BoardKind::kDiffuser;
    cloth.facing = -along_beam(scene);
    cloth.centre = scene.fixtures[0].position + 0.15F * along_beam(scene) + Vec3(0, 0.05F, 0);
    cloth.size = Vec2(0.3F, 0.3F);
    cloth.material = test::add_material(veiled, test::sheet("cloth", 0.3F, 0.6F, 0.0F));
    veiled.boards.push_back(cloth);
    CHECK(strength(texture_of(wall_profile(veiled))) < 0.1 * sharp);
}

TEST_CASE("half the dimmer is one stop") {
    Scene scene = jar_and_wall();
    MeterOptions options;
    options.passes = 4;
    options.light_walks_per_meter_walk = 8;
    const auto read = [&] { return read_meters(scene, World(scene), options).readings[0].lux; };
    const double full = read();
    scene.fixtures[0].dimmer = 0.5F;
    const double half = read();
    // Both readings come from the same walks, so that chance cancels.
    kSubject.exact("dimmer at 0.5", kPractice, "stops", "-1.000", stops_from_ratio(half / full));
}

TEST_CASE("a dark floor of 0.04 needs 4.5 times the light of an 18 % card") {
    const auto luminance = [](float reflectance, double lumens) {
        Scene scene;
        const MaterialId black = test::add_material(scene, test::lambertian("black", 0));
        const MaterialId card = test::add_material(scene, test::lambertian("card", reflectance));
        scene.room.push_back(test::box_room(Vec3(2, 2, 2), black));
        test::add_quad(scene.room[0],
                       Point(-1, -1, -1),
                       Point(-1, -1, 1),
                       Point(1, -1, 1),
                       Point(1, -1, -1),
                       card);
        scene.camera = test::camera_at(Point(0, 1.5F, 1), Point(0, -1, 0), 16, 12);
        scene.camera.focal_length = 0.2F;
        scene.fixtures.push_back(
            test::fixture_of(FixtureForm::kSpot, Point(0.5F, 1, 0), Point(0, -1, 0), lumens));
        RenderOptions options;
        options.passes = 16;
        return render_frame(scene, World(scene), options).film.frame_luminance().mean;
    };
    const double card = luminance(0.18F, 100);
    const double floor = luminance(0.04F, 450);
    kSubject.exact("luminance of the floor in 4.5 times the light, over that of the card",
                   kPractice,
                   "",
                   "1.000",
                   floor / card);
}

}  // namespace trade_test
