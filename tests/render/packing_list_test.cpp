// The packing list of a set.
#include <doctest/doctest.h>

#include <algorithm>

#include "geometry/nearest.h"
#include "render/packing/find_cautions.h"
#include "render/packing/find_lamp_places.h"
#include "render/packing/make_packing_list.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A tungsten spot 0.8 m in front of a ball of glass, and a wall 3.5 m behind it.
Scene kit_scene() {
    Scene scene = room_without_glass();
    scene.fixtures.resize(1);
    Fixture& f = scene.fixtures[0];
    f.name = "key";
    f.source = SourceKind::kTungsten;
    f.cct_k = 3200;
    f.position = Point(0, 0.5F, 1.0F);
    f.axis = Direction(0, 0, -1);
    f.power_w = 650;
    f.housing_diameter = 0.1F;
    f.housing_length = 0.2F;
    scene.housing_material = add_material(scene, lambertian("housing", 0.04F));
    const MaterialId glass = add_material(scene, clear_glass("ball", GlassType::kSodaLime));
    scene.glasses.push_back(ball_at(Point(0, 0.4F, 0.1F), 0.2F, glass));
    scene.power.volts = 230;
    scene.power.circuit_a = 10;
    return scene;
}

PackingList plan_of(const Scene& scene) {
    return make_packing_list(scene, World(scene));
}

// The texts of all cautions of one kind about one thing.
std::vector<std::string> cautions(const PackingList& list,
                                  const std::string& about,
                                  const std::string& kind) {
    std::vector<std::string> texts;
    for (const Caution& c : list.cautions) {
        if (c.about == about && c.kind == kind) texts.push_back(c.what + "; " + c.advice);
    }
    return texts;
}

}  // namespace

TEST_CASE("a window is not on the packing list") {
    Scene scene = kit_scene();
    scene.fixtures.push_back(fixture_of(FixtureForm::kPanel, Point(0, 0, -2), Point(0, 0, 0), 500));
    scene.fixtures[1].is_window = true;
    const PackingList list = plan_of(scene);
    REQUIRE(list.fixtures.size() == 1);
    CHECK(list.fixtures[0].name == "key");
}

TEST_CASE("the list names the glass on a fixture's axis and the surface that ends it") {
    const PackingList list = plan_of(kit_scene());
    REQUIRE(list.fixtures.size() == 1);
    const PackedFixture& f = list.fixtures[0];
    REQUIRE(f.meets.size() == 2);
    CHECK(f.meets[0].name == "ball");
    CHECK(f.meets[0].distance == doctest::Approx(0.8).epsilon(1e-3));
    CHECK(f.meets[1].name == "grey");
    CHECK(f.meets[1].distance == doctest::Approx(3.5).epsilon(1e-5));
    CHECK(f.height == doctest::Approx(2.0));  // its floor is at -1.5 m
}

TEST_CASE("a lamp's place names the glass that its light passes, not the wall that ends it") {
    const Scene scene = kit_scene();
    const std::vector<LampPlace> places = find_lamp_places(scene, World(scene));
    REQUIRE(places.size() == 1);
    CHECK(places[0].position == scene.fixtures[0].position);
    CHECK(places[0].passes == std::vector<std::string>{"ball"});
}

TEST_CASE("currents are power over volts, summed on each circuit") {
    Scene scene = kit_scene();
    scene.fixtures.resize(4, scene.fixtures[0]);
    scene.fixtures[0].circuit = scene.fixtures[1].circuit = "A";
    scene.fixtures[1].power_w = 1500;
    scene.fixtures[2].power_w = 0;
    scene.fixtures[3].supply = Supply::kBattery;
    const PackingList list = plan_of(scene);
    CHECK(list.fixtures[0].current_a == doctest::Approx(650.0 / 230));
    CHECK_FALSE(list.fixtures[2].current_a.has_value());
    CHECK_FALSE(list.fixtures[3].current_a.has_value());
    REQUIRE(list.circuits.size() == 2);
    CHECK(list.circuits[0].name == "A");
    CHECK(list.circuits[0].power_w == doctest::Approx(2150));
    CHECK(list.circuits[0].current_a == doctest::Approx(2150.0 / 230));
    CHECK(list.circuits[0].share == doctest::Approx(0.93478).epsilon(1e-4));
    CHECK(list.circuits[1].without_power == 1);
    CHECK(cautions(list, "circuit A", "load").size() == 1);
    CHECK(cautions(list, "mains", "load").size() == 1);
}

TEST_CASE("a circuit above 80 % of its load has a caution, and another one above 100 %") {
    Scene scene = kit_scene();
    const auto load = [&](float watts) {
        scene.fixtures[0].power_w = watts;
        return cautions(plan_of(scene), "mains", "load");
    };
    CHECK(load(0.79F * 2300).empty());
    REQUIRE(load(0.9F * 2300).size() == 1);
    CHECK(load(0.9F * 2300)[0].find("little reserve") != std::string::npos);
    REQUIRE(load(1.1F * 2300).size() == 1);
    CHECK(load(1.1F * 2300)[0].find("more than the circuit may carry") != std::string::npos);
    scene.power.circuit_a = 0;
    CHECK(load(1.1F * 2300).empty());
}

TEST_CASE("tungsten nearer to glass than its clearance has a caution, LED has none") {
    Scene scene = kit_scene();
    REQUIRE(cautions(plan_of(scene), "key", "heat").size() == 1);
    CHECK(cautions(plan_of(scene), "key", "heat")[0].starts_with(
        "\"ball\" is 0.80 m away, nearer than 1.00 m, our own figure"));
    scene.fixtures[0].clearance = 0.7F;
    CHECK(cautions(plan_of(scene), "key", "heat").empty());
    scene.fixtures[0].clearance = 0.9F;
    REQUIRE(cautions(plan_of(scene), "key", "heat").size() == 1);
    CHECK(cautions(plan_of(scene), "key", "heat")[0].find("0.90 m, its clearance_m") !=
          std::string::npos);
    scene.fixtures[0].gel.shift_mired = -100;
    CHECK(cautions(plan_of(scene), "key", "heat").size() == 2);
    scene.fixtures[0].source = SourceKind::kLed;
    scene.fixtures[0].gel.shift_mired = -20;
    CHECK(cautions(plan_of(scene), "key", "heat").empty());
}

TEST_CASE("fixtures over people's heads and dazzling fixtures have cautions") {
    Scene scene = kit_scene();
    CHECK(cautions(plan_of(scene), "key", "overhead").empty());  // 2.0 m
    CHECK(cautions(plan_of(scene), "key", "glare").size() == 1);
    scene.fixtures[0].position.y = 0.6F;
    CHECK(cautions(plan_of(scene), "key", "overhead").size() == 1);
    scene.fixtures[0].form = FixtureForm::kPanel;
    CHECK(cautions(plan_of(scene), "key", "glare").empty());
}

TEST_CASE("the listed colour and lumens are those of the light behind the gel") {
    Scene scene = kit_scene();
    scene.fixtures[0].gel.shift_mired = -112.5;
    scene.fixtures[0].gel.stops = 1;
    const PackedFixture f = plan_of(scene).fixtures[0];
    CHECK(std::abs(f.cct_k - 5000) < 15);
    CHECK(f.lumens < 500);
    CHECK(f.lumens > 50);
}

TEST_CASE("the distance to a triangle is the distance to its face, to an edge or to a corner") {
    const Point a(0, 0, 0);
    const Point b(2, 0, 0);
    const Point c(0, 2, 0);
    const auto distance = [&](const Point& p) { return distance_to_triangle(p, a, b, c); };
    CHECK(distance(Point(0.5F, 0.5F, -3)) == doctest::Approx(3));
    CHECK(distance(Point(1, -1, 0)) == doctest::Approx(1));
    CHECK(distance(Point(2, 2, 0)) == doctest::Approx(std::sqrt(2.0)));
    CHECK(distance(Point(-3, -4, 0)) == doctest::Approx(5));
    CHECK(distance_to_mesh(Point(0), Mesh()) == kInfinity);
}

TEST_CASE("haze asks for care about alarms, breathing and floors; clear air does not") {
    Scene scene = room_without_glass();
    CHECK(find_haze_cautions(scene).empty());
    scene.haze.extinction = 0.05F;
    const std::vector<Caution> cautions = find_haze_cautions(scene);
    REQUIRE(cautions.size() == 3);
    CHECK(cautions[0].what.find("smoke detectors") != std::string::npos);
    CHECK(cautions[1].what.find("cough") != std::string::npos);
    CHECK(cautions[2].what.find("slippery") != std::string::npos);
    for (const Caution& caution : cautions) CHECK(caution.kind == "haze");
}
