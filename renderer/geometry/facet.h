// A triangle as a hit on it asks for it, in one line of the cache: hits on glass are far apart in
// memory, and waiting for them is what they cost.
#pragma once

#include <array>
#include <cstddef>
#include <cstring>

#include "geometry/packed_normal.h"
#include "math/four.h"
#include "scene/scene.h"

namespace dapple {

struct alignas(64) Facet {
    std::array<Point, 3> corners;
    std::array<PackedNormal, 3> normals;  // at the corners; zero: flat
    MaterialId material = kNoMaterial;

    Four corner(size_t i) const {
        Four c;  // its fourth is what lies behind it, of the facet too
        std::memcpy(&c, reinterpret_cast<const char*>(this) + i * sizeof(Point), sizeof(c));
        return c;
    }
    bool is_flat() const {
        return normals[0].is_zero() && normals[1].is_zero() && normals[2].is_zero();
    }
};
static_assert(sizeof(Facet) == 64 && offsetof(Facet, corners) == 0);

// Where weights of the corners, 1 in sum, meet a facet.
struct OnFacet {
    Four position{};
    Four across{};        // along the geometric normal; zero: a triangle without an area
    Four interpolated{};  // not unit length; zero: flat
    float rounds_at = 0;  // m, the corners' largest coordinate

    OnFacet(const Facet& facet, float u, float v) {
        const float w = 1.0F - u - v;
        const Four a = facet.corner(0);
        const Four b = facet.corner(1);
        const Four c = facet.corner(2);
        position = w * a + u * b + v * c;
        rounds_at = largest(max_of(max_of(abs(a), abs(b)), abs(c)));
        across = cross(b - a, c - a);
        if (facet.is_flat()) return;
        interpolated = w * facet.normals[0].coordinates() + u * facet.normals[1].coordinates() +
                       v * facet.normals[2].coordinates();
    }
};

}  // namespace dapple
