// The quick estimate of light against closed forms.
#include "plausible/light/quick_light.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace dapple;

namespace {

Material paint(float reflectance) {
    Material m;
    m.name = "paint";
    m.reflectance = Rgb(reflectance);
    return m;
}

// A floor of 20 × 20 m at height 0, and a spot 2 m above it that looks down, both of `reflectance`.
Scene lamp_over_floor(float reflectance) {
    Scene scene;
    scene.materials.push_back(paint(reflectance));
    Mesh floor;
    floor.positions = {Point(-10, 0, -10), Point(-10, 0, 10), Point(10, 0, 10), Point(10, 0, -10)};
    floor.triangles = {glm::uvec3(0, 1, 2), glm::uvec3(0, 2, 3)};
    floor.materials = {0, 0};
    scene.room.push_back(floor);
    Fixture f;
    f.name = "lamp";
    f.source = SourceKind::kFlat;
    f.position = Point(0, 2, 0);
    f.axis = Direction(0, -1, 0);
    f.beam_angle = 0.4F;
    f.field_angle = 0.54F;
    f.output = OutputKind::kPeakCandela;
    f.output_value = 800;
    scene.fixtures.push_back(f);
    return scene;
}

struct Estimate {
    explicit Estimate(Scene s) : scene(std::move(s)) {}

    Scene scene;
    World world{scene};
    SetDescription written{};
    QuickLight light{{written, scene, world}};
};

}  // namespace

TEST_CASE("below a spot the illuminance is its candela over the square of the distance") {
    const Estimate e(lamp_over_floor(0.5F));
    CHECK(e.light.direct({Point(0, 0, 0), Normal(0, 1, 0)}) == doctest::Approx(200).epsilon(1e-3));
    CHECK(e.light.direct({Point(0, 0, 0), Normal(0, -1, 0)}) == 0);
}

TEST_CASE("a lit floor sends up what it reflects") {
    // Φ of the beam falls on a spot that is small against 2 m: at height h over its middle a plane
    // that faces down receives ρ Φ / (π h²) times the mean of cos⁴ over the spot, which is
    // 0.94 here: the beam's mean radius is about 0.35 m. 25 % is what 66 rays are good for.
    const Estimate e(lamp_over_floor(0.5F));
    const double lumens = e.light.emitters()[0].lumens();
    const LitPlace above{Point(0, 1.9F, 0), Normal(0, -1, 0)};
    CHECK(e.light.direct(above) == 0);
    const double expected = 0.94 * 0.5 * lumens / (kPi * 1.9 * 1.9);
    CHECK(e.light.all(above) == doctest::Approx(expected).epsilon(0.25));
}

TEST_CASE("a cloth sends light on around the beam, with half of it at its spread") {
    Scene scene = lamp_over_floor(0.0F);
    Material cloth = paint(0.1F);
    cloth.kind = MaterialKind::kSheet;
    cloth.transmission = 0.6F;
    cloth.direct = 0.0F;
    cloth.spread = 0.5F;
    scene.materials.push_back(cloth);
    Board board;
    board.kind = BoardKind::kDiffuser;
    board.centre = Point(0, 1.99F, 0);
    board.facing = Direction(0, 1, 0);
    board.size = Vec2(0.2F, 0.2F);
    board.material = 1;
    scene.boards.push_back(board);
    const Estimate e(scene);
    const double below = e.light.all({Point(0, 0, 0), Normal(0, 1, 0)});
    const double beside = e.light.all({Point(1.99F * std::tan(0.5F), 0, 0), Normal(0, 1, 0)});
    CHECK(e.light.direct({Point(0, 0, 0), Normal(0, 1, 0)}) == 0);
    // I(σ)/I(0) = 1/2, and the place is farther away and slanted: cos³. The beam has a width of its
    // own, so that the lobe is wider than that of one ray: up to 15 %.
    CHECK(beside / below == doctest::Approx(0.5 * std::pow(std::cos(0.5), 3)).epsilon(0.15));
}
