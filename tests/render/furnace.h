// The furnace test: in a uniform field of light, whatever loses no light is invisible.
#pragma once

#include <doctest/doctest.h>

#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

namespace dapple::test {

inline constexpr float kFurnaceLuminance = 100;  // cd/m²

// A furnace with a material of clear silica, which absorbs nothing.
struct SilicaFurnace {
    Scene scene = furnace(kFurnaceLuminance);
    MaterialId silica = add_material(scene, clear_glass("silica", GlassType::kSilica));
};

// Renders a furnace without footprints. All samples must be finite.
inline RenderResult render_furnace(const Scene& scene, Transport transport, int passes) {
    const World world(scene);
    RenderOptions options;
    options.transport = transport;
    options.footprint_px = 0;
    options.passes = passes;
    RenderResult result = render_frame(scene, world, options);
    CHECK(result.nonfinite_samples == 0);
    return result;
}

}  // namespace dapple::test
