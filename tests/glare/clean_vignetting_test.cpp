// What vignetting and the veil do to the clean frame.
#include <doctest/doctest.h>

#include "base/problems.h"
#include "glare/make_glare.h"
#include "render/render_frame.h"
#include "scene/build_scene.h"
#include "set/read_set.h"

using namespace dapple;

namespace {

constexpr int kShownWidth = 96;
constexpr int kShownHeight = 64;

// Neither ghosts nor a veil: the lamp is behind the camera.
Scene scene_with_vignetting() {
    Problems problems;
    const SetDescription set = read_set_text(
        "[room]\nsize_m = [16, 6, 3]\n[camera]\nposition = [0, 1.2, 2.5]\naim = [0, 1.2, -2]\n"
        "frame_px = [96, 64]\nfocal_length_mm = 50\nf_number = 2.8\nlens = \"normal\"\n"
        "vignetting = true\nveiling_glare_percent = 0\n[[fixture]]\nname = \"key\"\n"
        "form = \"spot\"\nsource = \"tungsten\"\nposition = [0, 1.5, 2.9]\naim = [0, 1, -3]\n"
        "beam_angle_deg = 50\noutput_lm = 400\n",
        "vignetting.toml",
        problems);
    const auto no_picture = [](const PictureSource& picture) -> Texture {
        throw FileError(picture.path, "none");
    };
    Scene scene = build_scene(set, no_picture, problems);
    REQUIRE(problems.all().empty());
    return scene;
}

RenderResult two_passes(const Scene& scene, const World& world) {
    RenderOptions options;
    options.passes = 2;
    options.threads = 1;
    return render_frame(scene, world, options);
}

}  // namespace

TEST_CASE("vignetting brings none of the film's noise into the clean frame") {
    const Scene scene = scene_with_vignetting();
    const World world(scene);
    const RenderResult result = two_passes(scene, world);
    CleanFrame even;
    even.width = kShownWidth;
    even.height = kShownHeight;
    even.total.assign(static_cast<size_t>(kShownWidth) * kShownHeight, Xyz(1));
    even.layers = {even.total};
    LensGlare lens_glare(scene, world);
    for (const GlareFrame& glare :
         {lens_glare.of(result.film, &even), lens_glare.sum_of(result.film, &even)}) {
        REQUIRE(glare.layers.size() == 1);
        const std::vector<Xyz>& change = glare.layers.front();
        // An even picture stays the same on both sides; the film's noise does not.
        const size_t last = change.size() - 1;
        for (size_t i = 0; i <= last; ++i) {
            CHECK(change[i].y == doctest::Approx(change[last - i].y).epsilon(1e-9));
        }
        CHECK(change.front().y < -0.1);
    }
    const GlareFrame of_film = lens_glare.of(result.film);
    CHECK(of_film.layers.front().front().y != of_film.layers.front().back().y);
}

TEST_CASE("glare takes no more from a pixel than the clean frame shows there") {
    Scene scene = scene_with_vignetting();
    scene.camera.lens.veiling_glare = 0.04F;
    const World world(scene);
    const RenderResult result = two_passes(scene, world);
    // The clean frame shows hardly any of the light of every fourth pixel.
    CleanFrame clean;
    clean.width = kShownWidth;
    clean.height = kShownHeight;
    for (int i = 0; i < result.film.pixels(); ++i) {
        clean.total.push_back((i % 4 == 0 ? 0.001 : 1.0) * result.film.resolve(i));
    }
    clean.layers = {clean.total};
    LensGlare lens_glare(scene, world);
    for (const GlareFrame& glare :
         {lens_glare.of(result.film, &clean), lens_glare.sum_of(result.film, &clean)}) {
        for (size_t i = 0; i < clean.total.size(); ++i) {
            CHECK(clean.total[i].y + glare.layers.front()[i].y >= 0);
        }
    }
}
