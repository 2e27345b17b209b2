// Where a ray meets a surface: the hit that the ray tracing kernels report, and the surface point
// that World::surface_at makes of it.
#pragma once

#include <cstdint>

#include "scene/scene.h"

namespace dapple {

inline constexpr uint32_t kNoIndex = ~0U;

struct Hit {
    float t = kInfinity;
    uint32_t body = 0;
    uint32_t triangle = 0;  // of the body
    float u = 0, v = 0;     // weights of the triangle's second and third corner
    Vec3 normal{0};         // geometric, not of unit length; to the outer side
};

struct SurfacePoint {
    Point position{0};
    Normal geometric{0, 0, 1};  // to the outer side, as the mesh is wound
    Normal shading{0, 0, 1};    // interpolated, on the same side
    Vec2 uv{0};
    Rgb vertex_colour{1};  // interpolated, linear Rec.709
    MaterialId material = kNoMaterial;
    int lamp = -1;   // index of the fixture whose lamp face this is; -1: not a lamp face
    int sheet = -1;  // index into World::sheets(); -1: not a sheet
    float distance = 0;
    uint32_t facet = kNoIndex;  // index of the triangle in the whole world; kNoIndex: a lamp face
    Vec2 barycentric{0};        // weights of the triangle's second and third corner
    float largest_coordinate = 0;  // m, of the triangle's corners
};

// A point just off the surface, on the side that `direction` points to. A ray from there does not
// meet the surface again: the offset is larger than the rounding errors of the coordinates, those
// of the triangle's corners included.
Point offset_origin(const SurfacePoint& at, const Direction& direction);

}  // namespace dapple
