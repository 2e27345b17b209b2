// The nodes of a glTF scene: which meshes stand where.
#pragma once

#include <array>
#include <vector>

#include "set/gltf/gltf_json.h"

namespace dapple {

// An affine map: columns of the turn and scale, then the shift.
struct GltfPlacement {
    std::array<std::array<double, 3>, 3> axes{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
    std::array<double, 3> shift{0, 0, 0};

    std::array<double, 3> point(const std::array<double, 3>& p) const;
    // Not of unit length. By the cofactors of the axes, so that scales are right and a mirror
    // turns the normal with the faces.
    std::array<double, 3> normal(const std::array<double, 3>& n) const;
    double determinant() const;
    GltfPlacement operator*(const GltfPlacement& first) const;
};

struct GltfInstance {
    GltfValue mesh;  // its index
    GltfPlacement placement;
};

// The meshes of the scene that the file shows. A node that is reached twice, as in a circle, fails.
std::vector<GltfInstance> read_gltf_nodes(const GltfValue& root);

}  // namespace dapple
