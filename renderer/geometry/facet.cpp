#include "geometry/facet.h"

#include <algorithm>

namespace dapple {

static_assert(sizeof(Point) == 3 * sizeof(uint32_t));
static_assert(sizeof(PackedNormal) == 2 * sizeof(uint32_t));
static_assert(sizeof(MaterialId) == sizeof(uint32_t));

Facet::Facet(const std::array<Point, 3>& corners, MaterialId material) {
    for (size_t i = 0; i < 3; ++i) store_block(&words_[3 * i], corners[i]);
    store_block(&words_[kMaterial], material);
}

Facet Facet::smooth(const std::array<Point, 3>& corners,
                    const std::array<PackedNormal, 3>& normals,
                    MaterialId material) {
    Facet facet(corners, material);
    for (size_t i = 0; i < 3; ++i) store_block(&facet.words_[kNormals + 2 * i], normals[i]);
    return facet;
}

Facet Facet::flat(const std::array<Point, 3>& corners, const Normal& normal, MaterialId material) {
    Facet facet(corners, material);
    store_block(&facet.words_[kFlatNormal], four(normal));
    return facet;
}

Facet make_facet(const std::array<Point, 3>& corners,
                 const std::array<Normal, 3>& normals,
                 MaterialId material) {
    const glm::dvec3 a(corners[0]);
    const glm::dvec3 across = glm::cross(glm::dvec3(corners[1]) - a, glm::dvec3(corners[2]) - a);
    const double area2 = glm::length(across);
    // No ray meets a triangle without area.
    const Normal geometric = area2 > 0 ? Normal(across / area2) : Normal(0, 1, 0);
    const auto is_none = [](const Normal& n) { return PackedNormal(n).is_zero(); };
    // In floats the corners of a needle may lie on a line. It is flat too, because a hit on it
    // could not compute its outer side.
    constexpr double kLeastArea2 = 1e-14;  // m²; its square is well within floats
    if (area2 < kLeastArea2 || std::all_of(normals.begin(), normals.end(), is_none)) {
        return Facet::flat(corners, geometric, material);
    }
    std::array<PackedNormal, 3> packed;
    for (size_t i = 0; i < 3; ++i) {
        packed[i] = PackedNormal(is_none(normals[i]) ? geometric : normals[i]);
    }
    return Facet::smooth(corners, packed, material);
}

}  // namespace dapple
