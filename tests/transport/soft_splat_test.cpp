// The disc of a scattered light walk on a glossy surface, and how many times the walk counts (E91).
// schedule_test.cpp tests other surfaces.
#include "transport/soft_splat.h"

#include <doctest/doctest.h>

#include "render/prepare/setup.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

TEST_CASE("on a glossy surface the disc is at most a third of the lobe and counts accordingly") {
    Scene scene = room_without_glass();
    const World world(scene);
    const Setup setup(scene, world);
    const PassMaterials materials(setup.materials, make_pass_wavelengths(1, 0));
    Stage stage = setup.stage(materials, no_light_walks(setup), 1, 0);
    stage.soft_splat_px = 6;
    Bsdf dull;
    dull.kind = Lambertian{Spectrum(0.5F)};
    CHECK(soft_splat_weight(stage, dull) == soft_splat_weight(6.0F));
    // An angle α is α / w pixels, where w is the angle of one pixel.
    const float pixel = setup.lens.pixel_width_at(1);
    for (const float width_px : {0.4F, 4.0F, 40.0F}) {
        Conductor metal;
        metal.alpha = 3 * width_px * pixel;
        Bsdf gloss;
        gloss.kind = metal;
        CAPTURE(width_px);
        CHECK(widest_splat_px(stage, gloss) == doctest::Approx(width_px));
        CHECK(soft_splat_weight(stage, gloss) ==
              doctest::Approx(soft_splat_weight(std::min(width_px, 6.0F))));
    }
}
