// Sheets and glass in a furnace: the strongest single test of refraction, of total reflection and
// of paths that end too early (furnace test, from memory).
#include "render/furnace.h"

#include <doctest/doctest.h>

#include <cmath>

#include "render/agreement.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// Checks that every pixel is within 0.3 %. `passes` is chosen so that the standard error of a pixel
// is a quarter of that. The furnace's frame is 4 × 3 px.
void check_uniform(const Scene& scene, Transport transport, int passes) {
    const RenderResult result = render_furnace(scene, transport, passes);
    double worst = 0;
    double worst_error = 0;
    for (int i = 0; i < result.film.pixels(); ++i) {
        worst = std::max(worst, std::abs(result.film.resolve(i).y / kFurnaceLuminance - 1));
        worst_error = std::max(worst_error, result.film.luminance_stderr(i) / kFurnaceLuminance);
    }
    CAPTURE(worst_error);
    CHECK(worst < 0.003);
}

// The furnace with a cloth that absorbs nothing.
Scene furnace_with_sheet() {
    Scene scene = furnace(kFurnaceLuminance);
    const MaterialId cloth = add_material(scene, sheet("cloth", 0.4F, 0.6F, 0.1F));
    Board board;
    board.size = Vec2(0.5F);
    board.facing = glm::normalize(Vec3(0.3F, 0.2F, 1));
    board.material = cloth;
    scene.boards.push_back(board);
    return scene;
}

// Refraction in silica leaves one wavelength of eight. That is the cause of the noise, half of the
// luminance in one pass.
Scene furnace_with_glass() {
    auto [scene, silica] = SilicaFurnace();
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
    return scene;
}

}  // namespace

TEST_CASE("an empty furnace has the luminance of its walls in every pixel") {
    check_uniform(furnace(kFurnaceLuminance), Transport::kCamera, 4);
}

TEST_CASE("a sheet that scatters all light vanishes in a furnace" * doctest::test_suite("slow")) {
    check_uniform(furnace_with_sheet(), Transport::kCamera, 130000);
    check_uniform(furnace_with_sheet(), Transport::kWalks, 130000);
}

TEST_CASE("a ball and a cup of clear glass vanish in a furnace" * doctest::test_suite("slow")) {
    check_uniform(furnace_with_glass(), Transport::kCamera, 400000);
}

// Only the mean of the frame is checked, because it takes fewer passes.
TEST_CASE("cloth and glass vanish in a furnace by every transport" * doctest::test_suite("slow")) {
    for (Scene scene : {furnace_with_sheet(), furnace_with_glass()}) {
        scene.regions.assign(1, Region{});  // the whole frame
        for (const Transport transport :
             {Transport::kWalks, Transport::kFull, Transport::kPartition}) {
            const RenderResult result = render(scene, transport, 8000, 1, 7);
            CHECK(result.nonfinite_samples == 0);
            const auto all = result.film.region_luminance(0);
            CAPTURE(scene.glasses.size());
            CAPTURE(static_cast<int>(transport));
            CAPTURE(all.mean);
            CAPTURE(all.stderr_of_mean);
            CHECK(std::abs(all.mean - kFurnaceLuminance) < 3.3 * all.stderr_of_mean);
            CHECK(all.stderr_of_mean < 0.003 * kFurnaceLuminance);
        }
    }
}
