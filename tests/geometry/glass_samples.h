// Glass objects that the tests of made glassware walk over, and what they measure on meshes.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "base/units.h"
#include "geometry/make_glass.h"
#include "scene/scene.h"

namespace dapple {

inline constexpr MaterialId kSampleGlass = 3;
inline constexpr MaterialId kSampleLiquid = 4;

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
    glass.ribs = ribs;
    glass.rib_depth = depth;
    return glass;
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

// Jars, bottles and tumblers as they stand on tables, small, large, squat and slender.
inline std::vector<GlassObject> vessels() {
    return {sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F),
            with_ribs(sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F), 24, 0.0015F),
            with_ribs(sample_glass(GlassForm::kJar, 0.05F, 0.2F, 0.002F), 7, 0.003F),
            sample_glass(GlassForm::kBottle, 0.30F, 0.075F, 0.0025F),
            sample_glass(GlassForm::kBottle, 0.35F, 0.30F, 0.005F),
            with_ribs(sample_glass(GlassForm::kBottle, 0.30F, 0.09F, 0.003F), 12, 0.001F),
            sample_glass(GlassForm::kTumbler, 0.09F, 0.075F, 0.0022F),
            with_ribs(sample_glass(GlassForm::kTumbler, 0.14F, 0.07F, 0.002F), 16, 0.001F)};
}

inline std::vector<GlassObject> made_glasses() {
    std::vector<GlassObject> all = vessels();
    all.push_back(sample_glass(GlassForm::kBall, 0.1F, 0.1F, 0.003F));
    GlassObject pane = sample_glass(GlassForm::kPane, 0.3F, 0.1F, 0.006F);
    pane.width = 0.2F;
    all.push_back(pane);
    return all;
}

inline std::string describe(const GlassObject& glass) {
    static const char* const names[] = {"mesh", "jar", "bottle", "tumbler", "pane", "ball"};
    return std::string(names[static_cast<int>(glass.form)]) + " " +
           std::to_string(1e3F * glass.height) + " x " + std::to_string(1e3F * glass.diameter) +
           " mm, " + std::to_string(glass.ribs) + " ribs, wall " +
           std::to_string(1e3F * glass.wall) + " mm, tilt " + std::to_string(glass.tilt);
}

inline Mesh glass_mesh(const GlassObject& glass) {
    return make_glass(glass, Scene{}).front();
}

inline Bounds bounds_of(const Mesh& mesh) {
    Bounds bounds;
    for (const Point& p : mesh.positions) bounds.add(p);
    return bounds;
}

// A triangle's corners and normals in doubles.
struct Facet {
    glm::dvec3 corner[3];
    glm::dvec3 normal[3];

    Facet(const Mesh& mesh, const glm::uvec3& t) {
        for (int i = 0; i < 3; ++i) {
            corner[i] = mesh.positions[t[i]];
            normal[i] = mesh.normals[t[i]];
        }
    }
    glm::dvec3 cross() const { return glm::cross(corner[1] - corner[0], corner[2] - corner[0]); }
    glm::dvec3 centre() const { return (corner[0] + corner[1] + corner[2]) / 3.0; }
    glm::dvec3 normal_at_centre() const {
        return glm::normalize(normal[0] + normal[1] + normal[2]);
    }
};

inline double angle_between(const glm::dvec3& a, const glm::dvec3& b) {
    return std::atan2(glm::length(glm::cross(a, b)), glm::dot(a, b));
}

}  // namespace dapple
