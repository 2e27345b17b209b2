// [[window]]: rectangles of light on walls and on surfaces of models.
#include <algorithm>
#include <array>
#include <cmath>

#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kWindowSet = kRoom + kCamera + kFixture;  // 4 × 5 m, 3 m high; camera at z = 2
const std::string kLight = "luminance_cd_m2 = 20\n";

double luminance(const Fixture& f) {
    return f.output_value / (static_cast<double>(f.panel_size.x) * f.panel_size.y);
}

std::array<Point, 4> corners(const Fixture& f) {
    const Frame frame = looking_frame(f.axis, f.up);
    const Vec3 s = 0.5F * f.panel_size.x * frame.s;
    const Vec3 t = 0.5F * f.panel_size.y * frame.t;
    return {f.position - s - t, f.position + s - t, f.position + s + t, f.position - s + t};
}

// The largest distance of the panel's corners from those of the face behind it.
float corner_error(const Fixture& f, const std::vector<Point>& face) {
    float error = 0;
    for (const Point& p : face) {
        float nearest = kInfinity;
        for (const Point& q : corners(f)) nearest = std::min(nearest, glm::distance(p, q));
        error = std::max(error, nearest);
    }
    return error;
}

// A model of faces, each of its own material m0, m1, ...
std::string model(const std::vector<std::vector<Point>>& faces, bool one_material = false) {
    std::string text;
    for (const std::vector<Point>& face : faces) {
        for (const Point& p : face) {
            text += "v " + std::to_string(p.x) + " " + std::to_string(p.y) + " " +
                    std::to_string(p.z) + "\n";
        }
    }
    size_t vertex = 1;
    for (size_t i = 0; i < faces.size(); ++i) {
        text += "usemtl m" + std::to_string(one_material ? 0 : i) + "\nf";
        for (size_t k = 0; k < faces[i].size(); ++k) text += " " + std::to_string(vertex++);
        text += "\n";
    }
    return text;
}

const std::vector<Point> kFloor{{-3, 0, -3}, {-3, 0, 3}, {3, 0, 3}, {3, 0, -3}};

// A rectangle that is parallel to no axis.
std::vector<Point> askew(const Point& centre, float width, float height) {
    const Frame frame = looking_frame(glm::normalize(Vec3(0.5F, 0.3F, 0.8F)));
    const float c = std::cos(0.4F);
    const float s = std::sin(0.4F);
    const Vec3 u = 0.5F * width * (c * frame.s + s * frame.t);
    const Vec3 v = 0.5F * height * (c * frame.t - s * frame.s);
    return {centre - u - v, centre + u - v, centre + u + v, centre - u + v};
}

std::string model_set(const std::string& window) {
    return window + "[room]\nmodel = \"room.obj\"\n" + kCamera + kFixture;
}

}  // namespace

TEST_CASE("a window on a wall of a box is a panel of its luminance, 1 mm in front of the wall") {
    WrittenSet set;
    const struct {
        const char* wall;
        Point centre;
        Direction facing;
    } rows[] = {{"wall_left", {-1.999F, 1.5F, 0.5F}, {1, 0, 0}},
                {"wall_right", {1.999F, 1.5F, 0.5F}, {-1, 0, 0}},
                {"wall_back", {0.5F, 1.5F, -2.499F}, {0, 0, 1}},
                {"wall_front", {0.5F, 1.5F, 2.499F}, {0, 0, -1}}};
    for (const auto& row : rows) {
        CAPTURE(row.wall);
        const Scene scene = set.build_clean(
            kWindowSet + "[[window]]\nname = \"dusk\"\nwall = \"" + row.wall +
            "\"\ncentre_m = [0.5, 1.5]\nsize_m = [1.25, 0.75]\ncct_k = 12000\n" + kLight);
        REQUIRE(scene.fixtures.size() == 2);
        const Fixture& dusk = scene.fixtures[1];
        CHECK(dusk.name == "dusk");
        CHECK(dusk.is_window);
        CHECK(dusk.form == FixtureForm::kPanel);
        CHECK(glm::distance(dusk.position, row.centre) < 1e-5F);
        CHECK(dusk.axis == row.facing);
        CHECK(dusk.panel_size == Vec2(1.25F, 0.75F));
        CHECK(luminance(dusk) == near(20));
        CHECK(dusk.source == SourceKind::kDaylight);
        CHECK(dusk.cct_k == 12000);
    }
    CHECK(set.notes().empty());
}

TEST_CASE(
    "street light through a window has Planck's spectrum, and a window can be all the light") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kRoom + kCamera + "[[window]]\nsurface = \"wall_back\"\ncct_k = 2000\n" + kLight);
    REQUIRE(scene.fixtures.size() == 1);
    const Fixture& street = scene.fixtures[0];
    CHECK(street.name == "window 1");
    CHECK(street.source == SourceKind::kTungsten);
    CHECK(street.dimmer == 1);
    CHECK(glm::distance(street.position, Point(0, 1.5F, -2.499F)) < 1e-5F);
    CHECK(street.panel_size.x == near(4));
    CHECK(street.panel_size.y == near(3));
}

TEST_CASE("a rectangle in a model becomes a light in its place, on the camera's side") {
    WrittenSet set;
    std::vector<Point> pane = askew(Point(0.2F, 1.2F, -2), 1.4F, 0.6F);
    for (int winding = 0; winding < 2; ++winding) {
        set.file("room.obj", model({kFloor, pane}));
        const Scene scene = set.build_clean(model_set("[[window]]\nsurface = \"m1\"\n" + kLight));
        REQUIRE(scene.fixtures.size() == 2);
        const Fixture& light = scene.fixtures[1];
        CHECK(corner_error(light, pane) < 0.00101F);
        CHECK(corner_error(light, pane) > 0.00099F);
        CHECK(glm::dot(light.axis, scene.camera.position - light.position) > 0);
        CHECK(light.panel_size.x * light.panel_size.y == near(1.4 * 0.6));
        CHECK(luminance(light) == near(20));
        std::reverse(pane.begin(), pane.end());
    }
}

TEST_CASE("each pane of a surface becomes a light, and a double face only one") {
    WrittenSet set;
    const std::vector<Point> left = askew(Point(-1, 1.2F, -2), 0.5F, 0.6F);
    const std::vector<Point> right = askew(Point(1, 1.2F, -2), 0.5F, 0.6F);
    const std::vector<Point> back_of_left(left.rbegin(), left.rend());
    set.file("room.obj", model({left, right, back_of_left}, true));
    const Scene scene =
        set.build_clean(model_set("[[window]]\nname = \"sky\"\nsurface = \"m0\"\n" + kLight));
    REQUIRE(scene.fixtures.size() == 3);
    CHECK(scene.fixtures[1].name == "sky 1");
    CHECK(scene.fixtures[2].name == "sky 2");
    CHECK(corner_error(scene.fixtures[1], left) < 0.00101F);
    CHECK(corner_error(scene.fixtures[2], right) < 0.00101F);
}

TEST_CASE("a window that is not a flat rectangle is reported in one line") {
    WrittenSet set;
    const auto line = [&](const std::vector<Point>& face) {
        set.file("room.obj", model({kFloor, face}));
        set.build(model_set("[[window]]\nsurface = \"m1\"\n" + kLight));
        REQUIRE(set.lines().size() == 1);
        return set.lines()[0];
    };
    const std::string start = "set.toml:2:1: window 1: surface: \"m1\" near (0, 1";
    const std::string end = "; a window must be flat and rectangular within 1 mm";
    const auto says = [&](const std::string& what, const std::string& text) {
        CAPTURE(text);
        CHECK(text.starts_with(start));
        CHECK(text.find(what) != std::string::npos);
        CHECK(text.ends_with(end));
    };
    says("is not a rectangle: its diagonals differ by",
         line({{-1, 0.5F, -2}, {1, 0.5F, -2}, {0.8F, 1.5F, -2}, {-1, 1.5F, -2}}));
    says("is bent by 5 mm",
         line({{-1, 0.5F, -2}, {1, 0.5F, -2.02F}, {1, 1.5F, -2}, {-1, 1.5F, -2.0F}}));
    says("is not a rectangle", line({{-1, 0.5F, -2}, {1, 0.5F, -2}, {0, 1.5F, -2}}));
    says("m² of a rectangle of",
         line({{-1, 0.5F, -2}, {1, 0.5F, -2}, {1, 1.5F, -2}, {0.2F, 1.1F, -2}, {-1, 1.5F, -2}}));
}

TEST_CASE("each mistake in a window, a door or a column is reported in one line") {
    WrittenSet set;
    const auto line = [&](const std::string& table, const std::string& rest) {
        set.build(table + rest);
        REQUIRE(set.lines().size() == 1);
        return set.lines()[0];
    };
    const std::string left = "wall = \"wall_left\"\ncentre_m = [2, 1.5]\n";
    CHECK(line("[[window]]\n" + left + "size_m = [1.5, 1]\n" + kLight, kWindowSet) ==
          "set.toml:3:1: window 1: centre_m: with size_m reaches beyond wall_left, 5 m long (from "
          "-2.5 to 2.5) and 3 m high");
    CHECK(line("[[window]]\n" + left + kLight, kWindowSet) ==
          "set.toml:1:1: window 1: size_m: is missing; give [width, height] in metres");
    CHECK(line("[[window]]\n" + kLight, kWindowSet) ==
          "set.toml:1:1: window 1: needs exactly one of surface and wall (with centre_m and "
          "size_m)");
    CHECK(line("[[window]]\nsurface = \"floor\"\n", kWindowSet) ==
          "set.toml:1:1: window 1: luminance_cd_m2: is missing; give the luminance of the sky or "
          "the street outside in cd/m2, or illuminance_lx, a meter's reading at the pane");
    CHECK(line("[[window]]\nsurface = \"floor\"\nilluminance_lx = 900\n" + kLight, kWindowSet) ==
          "set.toml:3:1: window 1: illuminance_lx: is given beside luminance_cd_m2; give only one "
          "of them");
    CHECK(line("[[window]]\nname = \"key\"\nsurface = \"floor\"\n" + kLight, kWindowSet) ==
          "set.toml:2:1: window \"key\": name: \"key\" is the name of another light; names must "
          "differ");
    CHECK(line("[[window]]\nwall = \"wall_lift\"\ncentre_m = [0, 1]\nsize_m = [1, 1]\n" + kLight,
               kWindowSet) ==
          "set.toml:2:1: window 1: wall: is \"wall_lift\"; must be one of wall_left, wall_right, "
          "wall_back, wall_front; did you mean wall_left?");
    set.file("room.obj", model({kFloor}));
    CHECK(line(model_set("[[door]]\n" + left + "size_m = [1, 1]\n"), "") ==
          "set.toml:2:1: door 1: wall: works only in a room that size_m gives, not in a model");
    CHECK(line(model_set("[[column]]\nposition = [0, 0, 0]\ndiameter_m = 0.3\n"), "") ==
          "set.toml:1:1: column 1: height_m: is missing; only in a room of size_m may it be left "
          "out");
    CHECK(line("[[column]]\nposition = [0, 0, 0]\n", kWindowSet) ==
          "set.toml:1:1: column 1: needs exactly one of size_m = [width, depth] and diameter_m");
    CHECK(
        line("[[door]]\nname = \"floor\"\nwall = \"wall_back\"\ncentre_m = [0, 1]\nsize_m = [1, "
             "2]\n",
             kWindowSet) ==
        "set.toml:2:1: door \"floor\": name: \"floor\" is the name of another surface; names must "
        "differ");
}

TEST_CASE("doors are on their wall, columns reach the ceiling, and [[surface]] can change both") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kWindowSet +
        "[[door]]\nname = \"door\"\nwall = \"wall_right\"\ncentre_m = [1, 1.05]\nsize_m = [0.9, "
        "2.1]\n[[column]]\nname = \"pillar\"\nposition = [1, 0.5, -1]\nsize_m = [0.3, 0.4]\n"
        "[[column]]\nposition = [-1, 0, -1]\ndiameter_m = 0.25\nheight_m = 2\nreflectance = 0.75\n"
        "[[surface]]\nname = \"door\"\ncoat = 1.0\n[[region]]\nname = \"r\"\nsurface = "
        "\"pillar\"\n");
    REQUIRE(scene.boards.size() == 1);
    const Board& door = scene.boards[0];
    CHECK(door.kind == BoardKind::kDoor);
    CHECK(glm::distance(door.centre, Point(1.9995F, 1.05F, 1)) < 1e-6F);
    CHECK(door.facing == Direction(-1, 0, 0));
    CHECK(door.size == Vec2(0.9F, 2.1F));
    const auto material = [&](MaterialId id) {
        return scene.materials.at(static_cast<size_t>(id));
    };
    CHECK(material(door.material).kind == MaterialKind::kCoated);
    REQUIRE(scene.columns.size() == 2);
    const Column& pillar = scene.columns[0];
    CHECK(pillar.height == near(2.5));
    CHECK(pillar.size == Vec2(0.3F, 0.4F));
    CHECK_FALSE(pillar.round);
    CHECK(material(pillar.material).reflectance == material(2).reflectance);  // as wall_left
    CHECK(scene.regions[0].surface == pillar.material);
    CHECK(scene.columns[1].round);
    CHECK(scene.columns[1].height == 2);
    CHECK(material(scene.columns[1].material).reflectance == Rgb(0.75F));
}

TEST_CASE("a window may be given by what a meter reads at its pane") {
    const std::string wall =
        "[[window]]\nwall = \"wall_left\"\ncentre_m = [0, 1.5]\nsize_m = [1, 1.5]\n";
    WrittenSet set;
    // An even sky of L fills the half-space before the meter: E = π L.
    const Scene scene = set.build_clean(kWindowSet + wall + "illuminance_lx = \"1000 lx\"\n");
    CHECK(luminance(scene.fixtures.back()) == doctest::Approx(1000 / 3.14159265));
}
