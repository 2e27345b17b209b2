// What a ray meets behind lamp faces, housings and stands, which it passes.
#pragma once

#include <string>
#include <vector>

#include "geometry/world.h"

namespace dapple {

// Whether the surface belongs to a fixture: its lamp face or its body.
bool is_of_fixture(const Scene& scene, const SurfacePoint& at);

// The closest surface that belongs to no fixture; false where there is none.
bool closest_past_fixtures(const Scene& scene, const World& world, Ray ray, SurfacePoint& at);

struct MetSurface {
    std::string name;    // of its material
    float distance = 0;  // m, from the ray's origin
};

// The surfaces along the ray that belong to no fixture, up to the first opaque one. Each material
// is listed once; a liquid is left out, because the glass that holds it is listed.
std::vector<MetSurface> surfaces_past_fixtures(const Scene& scene,
                                               const World& world,
                                               const Ray& ray);

}  // namespace dapple
