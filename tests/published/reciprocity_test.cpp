// Reciprocity: a panel and a meter's receptor of the same size may change places, whatever is
// between them.
//
// Helmholtz's reciprocity, for flux: at equal luminance as many lumens go from A to B as from B to
// A. The paths of one reading are those of the other in reverse.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "published/meter_sets.h"
#include "render/test_scenes.h"

namespace reciprocity_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Light both ways");

const std::string kReciprocity = "Helmholtz reciprocity (from memory)";

// A rectangle that sends or receives light.
struct End {
    Point centre;
    Direction facing;
    Vec2 size;
};
// Two rectangles of different size.
struct Ends {
    End a, b;
};

Ends make_ends(const Point& a,
               const Direction& a_facing,
               const Point& b,
               const Direction& b_facing) {
    return {{a, glm::normalize(a_facing), Vec2(0.3F, 0.2F)},
            {b, glm::normalize(b_facing), Vec2(0.2F, 0.28F)}};
}

// They face each other past (0, 0, 0); one is nearer and less tilted than the other.
Ends across() {
    return make_ends(Point(-0.5F, 0.05F, 0),
                     Direction(1, 0, 0),
                     Point(0.8F, -0.1F, 0.1F),
                     Direction(-1, 0.5F, 0.3F));
}

// Both face the floor, y = 0, and do not see each other.
Ends above_floor() {
    return make_ends(Point(-0.4F, 0.5F, 0),
                     Direction(0.6F, -1, 0),
                     Point(0.5F, 0.4F, 0.1F),
                     Direction(-0.3F, -1, 0.2F));
}

struct Between {
    std::string name;
    Ends ends;
    Scene scene;
    int meter_walks = 1024;  // for a standard error under 0.3 %
};

Between with_ball(const std::string& name, float roughness, int meter_walks) {
    Between b{name, across(), {}, meter_walks};
    Material glass = test::clear_glass("glass", GlassType::kSodaLime);
    glass.roughness = roughness;
    const MaterialId id = test::add_material(b.scene, glass);
    b.scene.glasses.push_back(test::ball_at(Point(0.05F, -0.25F, 0.02F), 0.5F, id));
    return b;
}

Between with_board(const std::string& name, const Ends& ends, const Material& material) {
    Between b{name, ends, {}};
    Board board;
    board.kind = BoardKind::kDiffuser;
    const bool is_floor = ends.a.facing.y < -0.5F;
    board.facing = is_floor ? Direction(0, 1, 0) : glm::normalize(Direction(1, 0.4F, -0.2F));
    board.size = Vec2(1.5F);
    board.material = test::add_material(b.scene, material);
    b.scene.boards.push_back(board);
    return b;
}

std::vector<Between> even_between() {
    const Material cloth = test::sheet("cloth", 0.3F, 0.5F, 0.1F);
    Material pane = test::lambertian("pane", 0);
    pane.kind = MaterialKind::kThinGlass;
    Material varnish = test::lambertian("varnish", 0.4F);
    varnish.kind = MaterialKind::kCoated;
    varnish.coat = 0.8F;
    varnish.roughness = 0.5F;
    Material metal = test::lambertian("metal", 0.8F);
    metal.kind = MaterialKind::kConductor;
    metal.roughness = 0.6F;
    return {with_board("cloth", across(), cloth),
            with_board("a window pane", across(), pane),
            with_board("a varnished floor", above_floor(), varnish),
            with_board("a brushed metal floor", above_floor(), metal),
            with_board("a painted floor", above_floor(), test::lambertian("paint", 0.5F))};
}

std::vector<Between> bending_between() {
    Material narrow = test::sheet("narrow", 0.3F, 0.5F, 0.1F);
    narrow.spread = 0.15F;
    Between narrow_cloth = with_board("cloth of narrow spread", across(), narrow);
    narrow_cloth.meter_walks = 32768;
    return {with_ball("a glass ball", 0, 12288),
            with_ball("a ball of rough glass", 0.5F, 16384),
            narrow_cloth};
}

// Lumens from a panel of 1000 cd/m² at `from` to a receptor at `to`.
Estimate lumens(const Between& between, const End& from, const End& to, Transport transport) {
    Scene scene = between.scene;
    Fixture panel =
        test::fixture_of(FixtureForm::kPanel, from.centre, from.centre + from.facing, 0);
    panel.panel_size = from.size;
    panel.output = OutputKind::kPeakCandela;
    panel.output_value = 1000.0 * from.size.x * from.size.y;
    scene.fixtures = {panel};
    scene.meters = {rectangle_meter(to.centre, to.facing, to.size)};
    MeterOptions options;
    options.meter_walks = between.meter_walks;
    options.transport = transport;
    options.light_walks_per_meter_walk = 8;
    return scaled(Readings(scene, options).lux(0), static_cast<double>(to.size.x) * to.size.y);
}

void check(const Between& between,
           Transport transport = Transport::kFull,
           double most_stderr = 0.003) {
    const Ends& ends = between.ends;
    const Estimate there = lumens(between, ends.a, ends.b, transport);
    const Estimate back = lumens(between, ends.b, ends.a, transport);
    const double ratio = there.value / back.value;
    const std::string how = transport == Transport::kPartition ? ", without weights" : "";
    kSubject.mean(
        "there over back, by way of " + between.name + how,
        kReciprocity,
        "",
        "1.0000",
        {ratio,
         ratio * std::hypot(there.stderr_of_mean / there.value, back.stderr_of_mean / back.value)},
        {most_stderr});
}

}  // namespace

TEST_CASE("a panel and a receptor may change places") {
    for (const Between& between : even_between()) check(between);
}

TEST_CASE("a panel and a receptor may change places through smooth and nearly smooth things" *
          doctest::test_suite("slow")) {
    for (const Between& between : bending_between()) check(between);
}

TEST_CASE("a panel and a receptor may change places by the transport without weights" *
          doctest::test_suite("slow")) {
    for (const Between& between : even_between()) check(between, Transport::kPartition, 0.01);
    check(with_ball("a glass ball", 0, 4096), Transport::kPartition, 0.01);
}

}  // namespace reciprocity_test
