#include "geometry/lay_figure/make_stand_in_parts.h"

#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr int kQuarterRings = 12;  // from pole to equator

// A circle about the axis, and the elevation of the normals on it.
struct PartRing {
    float along, radius, elevation;
};

// Adds rings on an arc from one elevation to another. The arc's centre is on the axis, at `along`.
void add_arc(
    std::vector<PartRing>& rings, float along, float radius, float from, float to, int pieces) {
    for (int i = 0; i <= pieces; ++i) {
        const float e = from + (to - from) * static_cast<float>(i) / static_cast<float>(pieces);
        rings.push_back({along + radius * std::sin(e), radius * std::cos(e), e});
    }
}

// Adds the solid that the rings make around the frame's n, stretched by `scale` along the frame's
// axes. The first and last ring are poles.
void add_turned(Mesh& mesh,
                const std::vector<PartRing>& rings,
                const Point& origin,
                const Frame& frame,
                const Vec3& scale) {
    const auto first = static_cast<uint32_t>(mesh.positions.size());
    const auto add = [&](const PartRing& ring, float phi, bool pole) {
        const Vec3 around(std::cos(phi), std::sin(phi), 0);
        const Vec3 p = (pole ? 0.0F : ring.radius) * around + Vec3(0, 0, ring.along);
        const Vec3 n = (pole ? 0.0F : std::cos(ring.elevation)) * around +
                       Vec3(0, 0, std::sin(ring.elevation));
        mesh.positions.push_back(origin + frame.to_world(scale * p));
        mesh.normals.push_back(glm::normalize(frame.to_world(n / scale)));
    };
    const size_t last = rings.size() - 1;
    for (size_t r = 0; r <= last; ++r) {
        const bool pole = r == 0 || r == last;
        for (uint32_t s = 0; s < (pole ? 1 : kPartSegments); ++s) {
            add(rings[r], 2 * kPiF * static_cast<float>(s) / kPartSegments, pole);
        }
    }
    const auto at = [&](size_t r, uint32_t s) {
        if (r == 0) return first;
        return first + 1 + static_cast<uint32_t>(r - 1) * kPartSegments +
               (r == last ? 0 : s % kPartSegments);
    };
    for (size_t r = 0; r < last; ++r) {
        for (uint32_t s = 0; s < kPartSegments; ++s) {
            if (r > 0) mesh.triangles.emplace_back(at(r, s), at(r, s + 1), at(r + 1, s));
            if (r + 1 < last) {
                mesh.triangles.emplace_back(at(r, s + 1), at(r + 1, s + 1), at(r + 1, s));
            }
        }
    }
}

}  // namespace

void add_ball(Mesh& mesh, const Point& centre, const Vec3& half_axes, const Frame& frame) {
    std::vector<PartRing> rings;
    add_arc(rings, 0, 1, -0.5F * kPiF, 0.5F * kPiF, 2 * kQuarterRings);
    add_turned(mesh, rings, centre, frame, half_axes);
}

void add_limb(Mesh& mesh, const Point& from, float from_radius, const Point& to, float to_radius) {
    const float length = glm::distance(from, to);
    assert(length > std::abs(from_radius - to_radius) && "one ball is inside the other");
    // The elevation of the normals of the cone that touches both balls.                    (E65)
    const float rise = std::asin((from_radius - to_radius) / length);
    std::vector<PartRing> rings;
    add_arc(rings, 0, from_radius, -0.5F * kPiF, rise, kQuarterRings);
    add_arc(rings, length, to_radius, rise, 0.5F * kPiF, kQuarterRings);
    add_turned(mesh, rings, from, Frame((to - from) / length), Vec3(1));
}

}  // namespace dapple
