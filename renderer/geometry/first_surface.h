// What a ray meets that is not part of a lamp: tracing past lamp faces, housings and stands.
#pragma once

#include <string>
#include <vector>

#include "geometry/world.h"

namespace dapple {

// Whether the surface belongs to a fixture: its lamp face or its body.
bool is_of_fixture(const Scene& scene, const SurfacePoint& at);

// The first surface that belongs to no fixture; false where there is none.
bool first_surface(const Scene& scene, const World& world, Ray ray, SurfacePoint& at);

struct MetSurface {
    std::string name;     // of its material
    float distance = 0;   // m, from the ray's origin
    bool passes = false;  // glass, cloth or a cut-out: more lies beyond
};

// All surfaces' names and distances along the ray up to the first opaque one, each thing
// once and a liquid not beside its glass.
std::vector<MetSurface> surfaces_along(const Scene& scene, const World& world, const Ray& ray);

}  // namespace dapple
