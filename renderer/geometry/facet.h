// A triangle as a hit on it asks for it, in one line of the cache: hits on glass are far apart in
// memory, and waiting for them is what they cost.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

#include "geometry/packed_normal.h"
#include "math/four.h"
#include "scene/scene.h"

namespace dapple {

class alignas(64) Facet {
  public:
    Facet() = default;
    // `normals` at the corners; with none at any of them it is flat.
    Facet(const std::array<Point, 3>& corners,
          const std::array<Normal, 3>& normals,
          MaterialId material);

    const Point& corner(size_t i) const { return corners_[i]; }
    PackedNormal normal(size_t i) const { return normals_[i]; }
    MaterialId material() const { return material_; }
    bool is_flat() const { return normals_[0].is_zero(); }

  private:
    friend struct OnFacet;

    Four corner_and_more(size_t i) const {
        Four c;  // its fourth is what lies behind it, of the facet too
        std::memcpy(&c, reinterpret_cast<const char*>(this) + i * sizeof(Point), sizeof(c));
        return c;
    }
    // A flat one's stands where the normals of its other corners would.
    Four flat_normal() const {
        Four n;
        std::memcpy(&n, &normals_[1], sizeof(n));
        return n;
    }

    std::array<Point, 3> corners_;
    std::array<PackedNormal, 3> normals_;  // the first is zero: flat
    MaterialId material_ = kNoMaterial;
};
static_assert(sizeof(Facet) == 64);

inline Facet::Facet(const std::array<Point, 3>& corners,
                    const std::array<Normal, 3>& normals,
                    MaterialId material)
    : corners_(corners), material_(material) {
    const glm::dvec3 a(corners[0]);
    const glm::dvec3 across = glm::cross(glm::dvec3(corners[1]) - a, glm::dvec3(corners[2]) - a);
    const double area2 = glm::length(across);
    // No ray meets one that has no area.
    const Normal geometric = area2 > 0 ? Normal(across / area2) : Normal(0, 1, 0);
    const auto is_none = [](const Normal& n) { return PackedNormal(n).is_zero(); };
    // In floats a needle's corners may lie on a line: flat too, for a hit could not tell its side.
    constexpr double kLeastArea2 = 1e-14;  // m²; its square is well within floats
    if (area2 < kLeastArea2 || std::all_of(normals.begin(), normals.end(), is_none)) {
        const Four n = four(geometric);
        static_assert(sizeof(n) == 2 * sizeof(PackedNormal));
        std::memcpy(static_cast<void*>(&normals_[1]), &n, sizeof(n));
        return;
    }
    for (size_t i = 0; i < 3; ++i) {
        normals_[i] = PackedNormal(is_none(normals[i]) ? geometric : normals[i]);
    }
}

// Where weights of the corners, 1 in sum, meet a facet.
struct OnFacet {
    Four position{};
    Four geometric{};
    Four shading{};       // interpolated, on the same side
    float rounds_at = 0;  // m, the corners' largest coordinate

    OnFacet(const Facet& facet, float u, float v) {
        const float w = 1.0F - u - v;
        const Four a = facet.corner_and_more(0);
        const Four b = facet.corner_and_more(1);
        const Four c = facet.corner_and_more(2);
        position = w * a + u * b + v * c;
        rounds_at = largest(max_of(max_of(abs(a), abs(b)), abs(c)));
        if (facet.is_flat()) {
            geometric = shading = facet.flat_normal();
            return;
        }
        // Neither normal waits for the other: the next ray waits for them.
        const Four across = cross(b - a, c - a);
        geometric = across * (1.0F / std::sqrt(dot(across, across)));
        const Four interpolated = w * facet.normals_[0].coordinates() +
                                  u * facet.normals_[1].coordinates() +
                                  v * facet.normals_[2].coordinates();
        const float length2 = dot(interpolated, interpolated);
        const float per_length = 1.0F / std::sqrt(length2);
        const bool away = dot(interpolated, across) < 0.0F;
        shading =
            length2 > square(1e-6F) ? interpolated * (away ? -per_length : per_length) : geometric;
    }
};

}  // namespace dapple
