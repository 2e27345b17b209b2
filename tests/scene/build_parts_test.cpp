// Degrees, millimetres and names become radians, metres and indices; missing values get defaults.
#include <cmath>

#include "base/units.h"
#include "scene/defaults.h"
#include "scene/written_set.h"

using namespace dapple;

namespace {

constexpr float kExact = 1e-6F;  // relative; a few float roundings

const std::string kSet = kRoom + kCamera;

}  // namespace

TEST_CASE("the minimal set builds without problems and notes") {
    Problems problems;
    const SetDescription set =
        read_set(std::string(DAPPLE_SOURCE_DIR) + "/tests/scene/sets/box.toml", problems);
    const Scene scene = build_scene(set, nullptr, problems);
    for (const Problem& problem : problems.all()) FAIL_CHECK(to_string(problem));
    CHECK(problems.notes().empty());
    CHECK(scene.title == "A box room and one lamp");
    CHECK(scene.fixtures.size() == 1);
    CHECK(scene.room.size() == 1);
}

TEST_CASE("a fixture's beam angle goes from degrees to radians, full angle") {
    WrittenSet set;
    const Scene scene = set.build_clean(kSet + kFixture + "field_angle_deg = 45\n");
    CHECK(scene.fixtures[0].beam_angle == near(30 * kPi / 180));
    CHECK(scene.fixtures[0].field_angle == near(45 * kPi / 180));
}

TEST_CASE("a missing field angle is 1.35 times the beam angle") {
    WrittenSet set;
    const Scene scene = set.build_clean(kSet + kFixture);
    CHECK(scene.fixtures[0].field_angle == near(1.35 * 30 * kPi / 180));
}

TEST_CASE("a missing field angle is below 180 degrees for any beam") {
    WrittenSet set;
    const Scene scene =
        set.build_clean(kSet +
                        "[[fixture]]\nname = \"a\"\nposition = [0, 1, 0]\naim = [0, 0, 0]\n"
                        "beam_angle_deg = 179\noutput_lm = 1\n");
    CHECK(scene.fixtures[0].field_angle > scene.fixtures[0].beam_angle);
    CHECK(scene.fixtures[0].field_angle < kPiF);
}

TEST_CASE("a dimmer warms a tungsten lamp unless the set says that it does not") {
    const std::string lamp = kFixture + "source = \"tungsten\"\ndimmer = 0.25\n";
    WrittenSet set;
    CHECK(set.build_clean(kSet + lamp).fixtures[0].dimmer_warms);
    CHECK(set.build_clean(kSet + lamp + "dimmer_warms = true\n").fixtures[0].dimmer_warms);
    CHECK_FALSE(set.build_clean(kSet + lamp + "dimmer_warms = false\n").fixtures[0].dimmer_warms);
}

TEST_CASE("each output keeps its kind and value") {
    const std::string head =
        "[[fixture]]\nname = \"a\"\nposition = [0, 1, 0]\naim = [0, 0, 0]\nbeam_angle_deg = 20\n";
    WrittenSet set;
    CHECK(set.build_clean(kSet + head + "output_lm = 2600\n").fixtures[0].output ==
          OutputKind::kLumens);
    CHECK(set.build_clean(kSet + head + "peak_cd = 500\n").fixtures[0].output ==
          OutputKind::kPeakCandela);
    const Fixture lux =
        set.build_clean(kSet + head + "lux = { value = 1800, at_m = 3.0 }\n").fixtures[0];
    CHECK(lux.output == OutputKind::kLux);
    CHECK(lux.output_value == 1800);
    CHECK(lux.output_distance == 3);
}

TEST_CASE("lengths in millimetres become metres") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kSet + kFixture +
        "source_mm = 12\nhousing_mm = [110, 180]\n[[glass]]\nform = \"jar\"\nposition = [0, 1, 0]\n"
        "height_mm = 250\ndiameter_mm = 100\nwall_mm = 2\nribs = 20\nrib_depth_mm = 1\n"
        "turn_deg = 90\ntilt_deg = -10\n");
    CHECK(scene.fixtures[0].source_diameter == near(0.012));
    CHECK(scene.fixtures[0].housing_diameter == near(0.110));
    CHECK(scene.fixtures[0].housing_length == near(0.180));
    CHECK(scene.glasses[0].height == near(0.25));
    CHECK(scene.glasses[0].diameter == near(0.1));
    CHECK(scene.glasses[0].wall == near(0.002));
    CHECK(scene.glasses[0].ribs == 20);
    CHECK(scene.glasses[0].relief_depth == near(0.001));
    CHECK(scene.glasses[0].turn == near(kPi / 2));
    CHECK(scene.glasses[0].tilt == near(-10 * kPi / 180));
}

TEST_CASE("every glass form can be made at its default size") {
    WrittenSet set;
    for (const char* form :
         {"jar", "bottle", "tumbler", "demijohn", "carafe", "ball", "rod", "pane"}) {
        CAPTURE(form);
        const Scene scene = set.build_clean(
            kSet + kFixture + "[[glass]]\nposition = [0, 1, 0]\nform = \"" + form + "\"\n");
        CHECK(scene.glasses[0].height > 0);
        CHECK(scene.materials[static_cast<size_t>(scene.glasses[0].material)].kind ==
              MaterialKind::kGlass);
    }
}

TEST_CASE("each surface of glass has default sizes, and ribs alone mean ribbed") {
    WrittenSet set;
    const auto glass = [&](const std::string& keys) {
        return set.build_clean(kSet + kFixture + "[[glass]]\nposition = [0, 1, 0]\n" + keys)
            .glasses[0];
    };
    CHECK(glass("form = \"jar\"\n").surface == GlassSurface::kPlain);
    CHECK(glass("form = \"jar\"\nribs = 12\n").surface == GlassSurface::kRibbed);
    const GlassObject turned = glass("form = \"jar\"\nsurface = \"ribbed\"\nrib_twist_deg = 90\n");
    CHECK(turned.ribs == 24);
    CHECK(turned.rib_twist == near(kPi / 2));
    const GlassObject pane = glass(
        "form = \"pane\"\nsurface = \"hammered\"\npattern_mm = 20\npattern_depth_mm = 0.4\nseed = "
        "7\n");
    CHECK(pane.surface == GlassSurface::kHammered);
    CHECK(pane.relief_pitch == near(0.02));
    CHECK(pane.relief_depth == near(0.0004));
    CHECK(pane.seed == 7);
    for (const char* surface : {"plain", "reeded", "hammered", "seeded", "wavy"}) {
        for (const char* form : {"jar", "bottle", "tumbler", "demijohn", "carafe", "rod", "pane"}) {
            CAPTURE(surface);
            CAPTURE(form);
            glass(std::string("form = \"") + form + "\"\nsurface = \"" + surface + "\"\n");
        }
    }
}

TEST_CASE("seeded glass has bubbles of air, whose priority is above that of the glass") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kSet + kFixture +
        "[[glass]]\nposition = [0, 1, 0]\nform = \"jar\"\nsurface = \"seeded\"\nbubbles = 30\n"
        "bubble_mm = 1\npriority = 40\n");
    const GlassObject& jar = scene.glasses[0];
    CHECK(jar.bubbles == 30);
    CHECK(jar.bubble_diameter == near(0.001));
    const Material& air = scene.materials[static_cast<size_t>(jar.air)];
    CHECK(air.glass == GlassType::kAir);
    CHECK(air.priority > scene.materials[static_cast<size_t>(jar.material)].priority);
}

TEST_CASE("a filled jar has a liquid, whose priority is below that of the glass") {
    WrittenSet set;
    const Scene scene =
        set.build_clean(kSet + kFixture +
                        "[[glass]]\nform = \"jar\"\nposition = [0, 1, 0]\nfill = { liquid = "
                        "\"water\", level = 0.6 }\n");
    const GlassObject& jar = scene.glasses[0];
    REQUIRE(jar.liquid != kNoMaterial);
    CHECK(jar.liquid_level == near(0.6));
    const Material& water = scene.materials[static_cast<size_t>(jar.liquid)];
    CHECK(water.glass == GlassType::kWater);
    CHECK(water.priority < scene.materials[static_cast<size_t>(jar.material)].priority);
}

TEST_CASE("the camera looks at its aim with the sky up") {
    WrittenSet set;
    const Camera camera = set.build_clean(kSet + kFixture).camera;
    CHECK(glm::distance(camera.frame.n, Direction(0, 0, -1)) < kExact);
    CHECK(glm::distance(camera.frame.s, Direction(1, 0, 0)) < kExact);
    CHECK(glm::distance(camera.frame.t, Direction(0, 1, 0)) < kExact);
}

TEST_CASE("a frame of another aspect uses the largest part of the sensor, with a note") {
    WrittenSet set;
    const Camera wide =
        set.build_clean(kFixture + kSet + "frame_px = [1600, 900]\nsensor_mm = [36, 24]\n").camera;
    CHECK(wide.sensor.x == near(0.036));
    CHECK(wide.sensor.y == near(0.036 * 9 / 16));
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] ==
          "set.toml:12:1: camera: frame_px: has another aspect than the sensor; "
          "the frame uses 36 x 20.25 mm of its 36 x 24 mm");
    const Camera square = set.build_clean(kFixture + kSet + "frame_px = [500, 500]\n").camera;
    CHECK(square.sensor.x == near(0.024));
    CHECK(square.sensor.y == near(0.024));
}

TEST_CASE("a frame within half a percent of the sensor's aspect uses all of it") {
    WrittenSet set;
    const Camera camera = set.build_clean(kFixture + kSet + "frame_px = [640, 427]\n").camera;
    CHECK(camera.sensor.x == near(0.036));
    CHECK(camera.sensor.y == near(0.024));
    CHECK(set.notes().empty());
}

TEST_CASE("boards get the material of their kind") {
    const std::string place = "position = [0, 1, 0]\naim = [0, 1, 1]\n";
    WrittenSet set;
    const Scene scene = set.build_clean(
        kSet + kFixture + "[[diffuser]]\n" + place + "size_m = [0.9, 0.6]\ntransmission = 0.6\n" +
        "[[flag]]\n" + place + "diameter_m = 0.5\n[[bounce]]\n" + place +
        "size_m = [1, 1]\n[[bounce]]\n" + place + "size_m = [1, 1]\nroughness = 0.3\n");
    REQUIRE(scene.boards.size() == 4);
    const auto material = [&](size_t i) {
        return scene.materials[static_cast<size_t>(scene.boards[i].material)];
    };
    CHECK(material(0).kind == MaterialKind::kSheet);
    CHECK(material(0).transmission == near(0.6));
    CHECK(material(0).reflectance.x == near(0.9 * 0.4));
    CHECK(material(0).spread == near(45 * kPi / 180));
    CHECK(scene.boards[0].size == Vec2(0.9F, 0.6F));
    CHECK(glm::distance(scene.boards[0].facing, Direction(0, 0, 1)) < kExact);
    CHECK(material(1).kind == MaterialKind::kLambertian);
    CHECK(material(1).reflectance.x == near(0.03));
    CHECK(scene.boards[1].round);
    CHECK(scene.boards[1].size.x == near(0.5));
    CHECK(material(2).kind == MaterialKind::kLambertian);
    CHECK(material(3).kind == MaterialKind::kConductor);
    CHECK(material(3).roughness == near(0.3));
}

TEST_CASE("a sheet that loses no light is allowed") {
    WrittenSet set;
    set.build_clean(kSet + kFixture +
                    "[[diffuser]]\nposition = [0, 1, 0]\naim = [0, 1, 1]\ndiameter_m = 1\n"
                    "transmission = 0.55\nreflectance = 0.45\n");
}

TEST_CASE("regions and meters keep their names, rectangles and surfaces") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kSet + kFixture +
        "[[region]]\nname = \"back\"\nsurface = \"wall_back\"\nrect_px = [0, 10, 960, 640]\n"
        "[[meter]]\nname = \"face\"\nposition = [0, 1, 0]\nfacing = [0, 3, 0]\n");
    const Region& region = scene.regions[0];
    CHECK(scene.materials[static_cast<size_t>(region.surface)].name == "wall_back");
    CHECK(region.has_rect);
    CHECK(region.rect == glm::ivec4(0, 10, 960, 640));
    CHECK(scene.meters[0].name == "face");
    CHECK(glm::distance(scene.meters[0].facing, Direction(0, 1, 0)) < kExact);
    // The default is the receptor of a hand meter.
    CHECK(scene.meters[0].receptor == ReceptorKind::kFlat);
    CHECK(scene.meters[0].diameter == near(0.025));
}

TEST_CASE("a meter's receptor can be a dome, a point or an area") {
    WrittenSet set;
    const std::string place = "position = [0, 1, 0]\nfacing = [0, 3, 0]\n";
    const Scene scene =
        set.build_clean(kSet + kFixture + "[[meter]]\n" + place +
                        "receptor = \"dome\"\nreceptor_mm = 40\n[[meter]]\n" + place +
                        "receptor_mm = 0\n[[meter]]\n" + place + "size_m = [1.5, 0.5]\n");
    CHECK(scene.meters[0].receptor == ReceptorKind::kDome);
    CHECK(scene.meters[0].diameter == near(0.040));
    CHECK(scene.meters[1].diameter == 0);
    CHECK(scene.meters[2].size == Vec2(1.5F, 0.5F));
    CHECK(scene.meters[2].diameter == 0);
}

TEST_CASE("barn doors, snoots and stands are built with a paint for them") {
    WrittenSet set;
    const Scene doors = set.build_clean(kSet + kFixture + "barn_doors_deg = [0, 90, 45, 180]\n");
    REQUIRE(doors.fixtures[0].barn_doors.has_value());
    CHECK((*doors.fixtures[0].barn_doors)[2] == near(kPi / 4));
    CHECK(doors.housing_material != kNoMaterial);
    const Scene snoot = set.build_clean(kSet + kFixture + "snoot_mm = [60, 120]\nstand = true\n");
    CHECK(snoot.fixtures[0].snoot_diameter == near(0.06));
    CHECK(snoot.fixtures[0].snoot_length == near(0.12));
    CHECK(snoot.fixtures[0].stand);
    CHECK(snoot.housing_material != kNoMaterial);
    CHECK(set.notes().empty());
}

TEST_CASE("sockets are at the top of the file or in [power]") {
    WrittenSet set;
    const Scene top = set.build_clean("mains = [[0.5, -1], [1, 1.5]]\n" + kSet + kFixture);
    REQUIRE(top.power.mains.size() == 2);
    CHECK(top.power.mains[0] == Vec2(0.5F, -1));
    CHECK(top.power.mains[1] == Vec2(1, 1.5F));
    const Scene table = set.build_clean(kSet + kFixture + "[power]\nmains = [[0.5, -1]]\n");
    REQUIRE(table.power.mains.size() == 1);
    CHECK(table.power.mains[0] == Vec2(0.5F, -1));
    CHECK(set.build_clean(kSet + kFixture).power.mains.empty());
}

TEST_CASE("the power, supply, circuit and clearance of a fixture are kept") {
    WrittenSet set;
    const Scene scene = set.build_clean(kSet + kFixture +
                                        "power_w = 650\ncircuit = \"A\"\nclearance_m = "
                                        "0.6\n[power]\nvolts = 120\ncircuit_a = 20\n");
    CHECK(scene.fixtures[0].power_w == 650);
    CHECK(scene.fixtures[0].circuit == "A");
    CHECK(scene.fixtures[0].clearance == near(0.6));
    CHECK(scene.fixtures[0].aim == Point(0, 1, 0));
    CHECK(scene.power.volts == 120);
    CHECK(scene.power.circuit_a == 20);
    CHECK(set.build_clean(kSet + kFixture).power.volts == 230);
    set.build_clean(kSet + kFixture + "supply = \"battery\"\ncircuit = \"A\"\n");
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] ==
          "set.toml:13:1: fixture \"key\": circuit: is not used: the fixture has a battery");
}
