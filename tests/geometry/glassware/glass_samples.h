// Glass objects that the tests of made glassware walk over.
#pragma once

#include <string>
#include <vector>

#include "base/units.h"
#include "geometry/glassware/make_glass.h"
#include "geometry/mesh_measure.h"
#include "scene/scene.h"

namespace dapple {

inline constexpr MaterialId kSampleGlass = 3;
inline constexpr MaterialId kSampleLiquid = 4;
inline constexpr MaterialId kSampleAir = 5;

inline GlassObject sample_glass(GlassForm form, float height, float diameter, float wall) {
    GlassObject glass;
    glass.form = form;
    glass.height = height;
    glass.diameter = diameter;
    glass.wall = wall;
    glass.material = kSampleGlass;
    return glass;
}

inline GlassObject with_ribs(GlassObject glass, int ribs, float depth) {
    glass.surface = GlassSurface::kRibbed;
    glass.ribs = ribs;
    glass.relief_depth = depth;
    return glass;
}

inline GlassObject plain(GlassObject glass) {
    glass.surface = GlassSurface::kPlain;
    glass.relief_depth = 0;
    glass.rib_twist = 0;
    glass.bubbles = 0;
    return glass;
}

inline GlassObject with_twist(GlassObject glass, float twist) {
    glass.rib_twist = twist;
    return glass;
}

inline GlassObject with_pattern(GlassObject glass, GlassSurface surface, float pitch, float depth) {
    glass.surface = surface;
    glass.relief_pitch = pitch;
    glass.relief_depth = depth;
    return glass;
}

inline GlassObject with_bubbles(GlassObject glass, int bubbles, float diameter) {
    glass.bubbles = bubbles;
    glass.bubble_diameter = diameter;
    glass.air = kSampleAir;
    return glass;
}

inline GlassObject sample_pane(float width, float height, float wall) {
    GlassObject pane = sample_glass(GlassForm::kPane, height, 0.1F, wall);
    pane.width = width;
    return pane;
}

inline GlassObject with_liquid(GlassObject glass, float level) {
    glass.liquid = kSampleLiquid;
    glass.liquid_level = level;
    return glass;
}

// Turned, tilted and moved to where sets have their glass.
inline GlassObject somewhere(GlassObject glass) {
    glass.turn = 0.7F;
    glass.tilt = 0.3F;
    glass.position = Point(-1.5F, 1.45F, 2.35F);
    return glass;
}

// Vessels as they stand on tables, small, large, squat and slender.
inline std::vector<GlassObject> vessels() {
    return {sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F),
            with_ribs(sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F), 24, 0.0015F),
            with_ribs(sample_glass(GlassForm::kJar, 0.05F, 0.2F, 0.002F), 7, 0.003F),
            sample_glass(GlassForm::kBottle, 0.30F, 0.075F, 0.0025F),
            sample_glass(GlassForm::kBottle, 0.35F, 0.30F, 0.005F),
            with_ribs(sample_glass(GlassForm::kBottle, 0.30F, 0.09F, 0.003F), 12, 0.001F),
            sample_glass(GlassForm::kTumbler, 0.09F, 0.075F, 0.0022F),
            with_ribs(sample_glass(GlassForm::kTumbler, 0.14F, 0.07F, 0.002F), 16, 0.001F),
            with_twist(with_ribs(sample_glass(GlassForm::kJar, 0.1F, 0.1F, 0.003F), 8, 0.0008F), 1),
            with_pattern(sample_glass(GlassForm::kJar, 0.12F, 0.1F, 0.003F),
                         GlassSurface::kReeded,
                         0.05F,
                         0.0015F),
            with_pattern(sample_glass(GlassForm::kTumbler, 0.12F, 0.1F, 0.003F),
                         GlassSurface::kHammered,
                         0.05F,
                         0.001F),
            with_pattern(sample_glass(GlassForm::kBottle, 0.3F, 0.08F, 0.003F),
                         GlassSurface::kWavy,
                         0.03F,
                         0.0003F),
            with_bubbles(sample_glass(GlassForm::kDemijohn, 0.42F, 0.32F, 0.005F), 5, 0.003F),
            sample_glass(GlassForm::kCarafe, 0.27F, 0.13F, 0.0035F)};
}

inline std::vector<GlassObject> made_glasses() {
    std::vector<GlassObject> all = vessels();
    all.push_back(sample_glass(GlassForm::kBall, 0.1F, 0.1F, 0.003F));
    const GlassObject pane = sample_pane(0.2F, 0.3F, 0.006F);
    all.push_back(pane);
    all.push_back(with_pattern(pane, GlassSurface::kReeded, 0.03F, 0.001F));
    all.push_back(with_pattern(pane, GlassSurface::kHammered, 0.06F, 0.001F));
    all.push_back(with_pattern(pane, GlassSurface::kWavy, 0.04F, 0.0003F));
    all.push_back(with_bubbles(pane, 4, 0.002F));
    const GlassObject rod = sample_glass(GlassForm::kRod, 0.3F, 0.02F, 0);
    all.push_back(rod);
    all.push_back(
        with_bubbles(with_pattern(rod, GlassSurface::kReeded, 0.01F, 0.0008F), 3, 0.001F));
    return all;
}

inline std::string describe(const GlassObject& glass) {
    static const char* const names[] = {
        "mesh", "jar", "bottle", "tumbler", "pane", "ball", "demijohn", "carafe", "rod"};
    static const char* const surfaces[] = {"plain", "ribbed", "reeded", "hammered", "wavy"};
    return std::string(surfaces[static_cast<int>(glass.surface)]) + " " +
           names[static_cast<int>(glass.form)] + " " + std::to_string(1e3F * glass.height) + " x " +
           std::to_string(1e3F * glass.diameter) + " mm, " + std::to_string(glass.ribs) +
           " ribs, wall " + std::to_string(1e3F * glass.wall) + " mm, tilt " +
           std::to_string(glass.tilt);
}

inline Mesh glass_mesh(const GlassObject& glass) {
    return make_glass(glass, Scene{}).front();
}

}  // namespace dapple
