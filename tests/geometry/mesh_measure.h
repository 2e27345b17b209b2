// What the tests of made meshes measure on them.
#pragma once

#include <cmath>

#include "scene/scene.h"

namespace dapple {

inline Bounds bounds_of(const Mesh& mesh) {
    Bounds bounds;
    for (const Point& p : mesh.positions) bounds.add(p);
    return bounds;
}

// A triangle's corners and normals in doubles.
struct MeshTriangle {
    glm::dvec3 corner[3];
    glm::dvec3 normal[3];

    MeshTriangle(const Mesh& mesh, const glm::uvec3& t) {
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
