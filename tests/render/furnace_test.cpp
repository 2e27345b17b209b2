// In a uniform field of light whatever loses none is invisible: the strongest single test of
// refraction, of total reflection and of paths that end too early (furnace test, from memory).
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr float kLuminance = 100;

// Every pixel within 0.3 %. `passes` is chosen so that the spread of a pixel is a quarter of that;
// the furnace's frame is 4 × 3 px.
void check_uniform(const Scene& scene, Transport transport, int passes) {
    const World world(scene);
    RenderOptions options;
    options.transport = transport;
    options.footprint_px = 0;
    options.passes = passes;
    const RenderResult result = render_frame(scene, world, options);
    CHECK(result.nonfinite_samples == 0);
    double worst = 0;
    double worst_error = 0;
    for (int i = 0; i < result.film.pixels(); ++i) {
        worst = std::max(worst, std::abs(result.film.resolve(i).y / kLuminance - 1));
        worst_error = std::max(worst_error, result.film.luminance_stderr(i) / kLuminance);
    }
    CAPTURE(worst_error);
    CHECK(worst < 0.003);
}

}  // namespace

TEST_CASE("an empty furnace has the luminance of its walls in every pixel") {
    check_uniform(furnace(kLuminance), Transport::kCamera, 4);
}

TEST_CASE("a sheet that scatters all light vanishes in a furnace" * doctest::test_suite("slow")) {
    Scene scene = furnace(kLuminance);
    const MaterialId cloth = add_material(scene, sheet("cloth", 0.4F, 0.6F, 0.1F));
    Board board;
    board.size = Vec2(0.5F);
    board.facing = glm::normalize(Vec3(0.3F, 0.2F, 1));
    board.material = cloth;
    scene.boards.push_back(board);
    check_uniform(scene, Transport::kCamera, 130000);
    check_uniform(scene, Transport::kWalks, 130000);
}

// Silica is clear in our catalogue. Its refraction leaves one wavelength of eight: that makes the
// noise, half of the luminance in one pass.
TEST_CASE("a ball and a cup of clear glass vanish in a furnace" * doctest::test_suite("slow")) {
    Scene scene = furnace(kLuminance);
    const MaterialId silica = add_material(scene, clear_glass("silica", GlassType::kSilica));
    scene.glasses.push_back(ball_at(Point(-0.25F, -0.2F, 0), 0.3F, silica));
    GlassObject cup;
    cup.name = "cup";
    cup.form = GlassForm::kTumbler;
    cup.position = Point(0.2F, -0.2F, 0);
    cup.height = 0.4F;
    cup.diameter = 0.3F;
    cup.wall = 0.02F;
    cup.material = silica;
    scene.glasses.push_back(cup);
    check_uniform(scene, Transport::kCamera, 400000);
}
