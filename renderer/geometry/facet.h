// The shading data of one triangle, and its evaluation at a hit.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>

#include "base/memory_hints.h"
#include "geometry/packed_normal.h"
#include "math/four.h"
#include "scene/scene.h"

namespace dapple {

// The data of one triangle in 64 bytes, which is one cache line: hits on glass are far apart in
// memory, and loading their data is most of their cost. As words of four bytes:
//   0 to 8     three corners of three floats
//   9 to 14    three packed normals of two words; in a flat triangle word 9 and 10 are 0, and
//              words 11 to 14 hold its one normal as four floats
//   15         the material
class alignas(64) Facet {
  public:
    static Facet smooth(const std::array<Point, 3>& corners,
                        const std::array<PackedNormal, 3>& normals,
                        MaterialId material);
    static Facet flat(const std::array<Point, 3>& corners,
                      const Normal& normal,
                      MaterialId material);

    // Its fourth float is the word that follows the corner and has no meaning: one load of four
    // floats is faster than loads of three.
    Four corner(size_t i) const { return load_block<Four>(&words_[3 * i]); }
    bool is_flat() const { return normal(0).is_zero(); }
    // Only of a smooth triangle.
    PackedNormal normal(size_t i) const {
        return load_block<PackedNormal>(&words_[kNormals + 2 * i]);
    }
    // Only of a flat triangle.
    Four flat_normal() const { return load_block<Four>(&words_[kFlatNormal]); }
    MaterialId material() const { return load_block<MaterialId>(&words_[kMaterial]); }

  private:
    static constexpr size_t kNormals = 9;
    static constexpr size_t kFlatNormal = 11;
    static constexpr size_t kMaterial = 15;

    Facet(const std::array<Point, 3>& corners, MaterialId material);

    std::array<uint32_t, 16> words_{};
};
static_assert(sizeof(Facet) == 64);

// `normals` are those at the corners. The triangle is flat if all of them are zero.
Facet make_facet(const std::array<Point, 3>& corners,
                 const std::array<Normal, 3>& normals,
                 MaterialId material);

// The point of a facet at which its second corner has the weight u and its third the weight v.
struct OnFacet {
    Four position{};
    Four geometric{};
    Four shading{};                // interpolated, on the same side
    float largest_coordinate = 0;  // m, of the corners

    OnFacet(const Facet& facet, float u, float v) {
        const float w = 1.0F - u - v;
        const Four a = facet.corner(0);
        const Four b = facet.corner(1);
        const Four c = facet.corner(2);
        position = w * a + u * b + v * c;
        largest_coordinate = largest(max_of(max_of(abs(a), abs(b)), abs(c)));
        if (facet.is_flat()) {
            geometric = shading = facet.flat_normal();
            return;
        }
        // Neither normal is computed from the other, because the next ray waits for both.
        const Four across = cross(b - a, c - a);
        geometric = across * (1.0F / std::sqrt(dot(across, across)));
        const Four interpolated = w * facet.normal(0).coordinates() +
                                  u * facet.normal(1).coordinates() +
                                  v * facet.normal(2).coordinates();
        const float length2 = dot(interpolated, interpolated);
        const float per_length = 1.0F / std::sqrt(length2);
        const bool away = dot(interpolated, across) < 0.0F;
        shading =
            length2 > square(1e-6F) ? interpolated * (away ? -per_length : per_length) : geometric;
    }
};

}  // namespace dapple
