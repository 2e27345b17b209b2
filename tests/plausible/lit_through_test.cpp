// Which pixels are lit through a glass, against where its shadow must be.
#include "plausible/light/lit_through.h"

#include <numeric>

#include "plausible/staged_text.h"
#include "render/prepare/find_first_hits.h"
#include "render/prepare/find_seen_points.h"
#include "render/prepare/setup.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A pane of 0.4 × 0.4 m, 1 m before a small lamp and 2 m before the back wall, which it shades from
// x = -0.6 to 0.6 m and from y = 0.4 to 1.6 m.
const std::string kPaneSet = R"([room]
size_m = [4.0, 4.0, 2.6]
reflectance = 0.5

[camera]
position = [1.2, 1.9, 1.6]
aim = [0.0, 1.0, -2.0]
focal_length_mm = 30
frame_px = [120, 80]
f_number = 4
shutter_s = 0.0166667
iso = 400

[[fixture]]
name = "lamp"
form = "spot"
source = "flat"
position = [0, 1, 1]
aim = [0, 1, -2]
beam_angle_deg = 60
field_angle_deg = 80
output_lm = 1000
source_mm = 4

[[glass]]
name = "pane"
form = "pane"
position = [0, 0.8, 0]
width_mm = 400
height_mm = 400
wall_mm = 4
)";

struct Lit {
    SeenPoints seen;
    std::vector<char> pixels;

    int count() const { return std::accumulate(pixels.begin(), pixels.end(), 0); }
    // Of those lit, how far the farthest is from the middle of the shadow, m.
    Vec2 reach() const {
        Vec2 most(0);
        for (size_t i = 0; i < pixels.size(); ++i) {
            const Point& p = seen.pixels[i].position;
            if (pixels[i]) most = glm::max(most, glm::abs(Vec2(p.x, p.y - 1)));
        }
        return most;
    }
};

Lit lit_through(const std::string& text) {
    Problems problems;
    const std::string path = DAPPLE_SOURCE_DIR "/scenes/set.toml";
    const SetDescription written = read_set_text(text, path, problems);
    const auto grey = [](const PictureSource&) { return Texture{"grey", 1, 1, 1, false, {128}}; };
    const Scene scene = build_scene(written, grey, problems);
    for (const Problem& problem : problems.all()) FAIL(to_string(problem));
    const World world(scene);
    const Setup setup(scene, world, false);
    WorkWatch watch;
    const FirstHits hits = find_first_hits(scene, world, setup.lens, watch);
    Lit lit{find_seen_points(setup, hits, watch), {}};
    std::vector<int32_t> wall;
    for (size_t i = 0; i < lit.seen.pixels.size(); ++i) {
        if (lit.seen.pixels[i].position.z < -1.99F) wall.push_back(static_cast<int32_t>(i));
    }
    const Thing pane{ThingKind::kGlass, 0};
    lit.pixels = find_lit_through({written, scene, world}, pane, hits, lit.seen, wall);
    return lit;
}

std::string pane_set_but(const std::string& from, const std::string& to) {
    return changed(kPaneSet, from, to);
}

}  // namespace

TEST_CASE("what is lit through a pane is its shadow without a band along the outline") {
    const Lit lit = lit_through(kPaneSet);
    CHECK(lit.count() > 100);
    // The rim is 0.15 of half the pane's diagonal, three times as wide on the wall: 0.13 m. Two
    // more pixels are left out, each 3 to 5 cm wide there.
    CHECK(lit.reach().x <= 0.6F - 0.13F);
    CHECK(lit.reach().x >= 0.6F - 0.13F - 0.16F);
    CHECK(lit.reach().y <= 0.6F - 0.13F);
    CHECK(lit.reach().y >= 0.6F - 0.13F - 0.16F);
}

TEST_CASE(
    "nothing is lit through a pane beside the beam, behind a flag, or in front of a dark lamp") {
    CHECK(lit_through(pane_set_but("[0, 0.8, 0]", "[-1.7, 0.2, 1.5]")).count() == 0);
    CHECK(lit_through(pane_set_but("output_lm = 1000", "output_lm = 1000\ndimmer = 0")).count() ==
          0);
    const std::string flag =
        "\n[[flag]]\nname = \"flag\"\nposition = [0, 1, 0.5]\naim = [0, 1, 1]\nsize_m = [0.5, "
        "0.5]\n";
    CHECK(lit_through(kPaneSet + flag).count() == 0);
}

TEST_CASE("only the field of a beam counts as lit, not its spill") {
    // The radius of the field on the wall: 3 m tan 5°.
    const Lit lit = lit_through(pane_set_but("beam_angle_deg = 60\nfield_angle_deg = 80",
                                             "beam_angle_deg = 7\nfield_angle_deg = 10"));
    CHECK(lit.count() > 5);
    CHECK(glm::length(lit.reach()) < 1.42F * 3 * std::tan(radians_from_degrees(5.0F)));
}

TEST_CASE("where another lamp drowns the light through a pane, it does not count") {
    const std::string second = R"(
[[fixture]]
name = "bright"
form = "spot"
source = "flat"
position = [1.5, 1.2, -0.5]
aim = [0, 1, -2]
beam_angle_deg = 60
field_angle_deg = 80
output_lm = 100000
source_mm = 4
)";
    CHECK(lit_through(kPaneSet + second).count() == 0);
}
