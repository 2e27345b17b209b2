#include "geometry/nearest.h"

#include <algorithm>

namespace dapple {

namespace {

float distance_to_edge(const Point& p, const Point& a, const Point& b) {
    const Vec3 along = b - a;
    const float length2 = glm::dot(along, along);
    const float t = length2 > 0 ? std::clamp(glm::dot(p - a, along) / length2, 0.0F, 1.0F) : 0.0F;
    return glm::length(p - a - t * along);
}

}  // namespace

// If the point is over the triangle, the distance from its plane, else from the nearest edge.
float distance_to_triangle(const Point& p, const Point& a, const Point& b, const Point& c) {
    const Vec3 n = glm::cross(b - a, c - a);
    const float n2 = glm::dot(n, n);
    const auto inside = [&](const Point& from, const Point& to) {
        return glm::dot(glm::cross(to - from, p - from), n) >= 0;
    };
    if (n2 > 0 && inside(a, b) && inside(b, c) && inside(c, a)) {
        return std::abs(glm::dot(p - a, n)) / std::sqrt(n2);
    }
    return std::min(
        {distance_to_edge(p, a, b), distance_to_edge(p, b, c), distance_to_edge(p, c, a)});
}

float distance_to_mesh(const Point& p, const Mesh& mesh) {
    float nearest = kInfinity;
    for (const glm::uvec3& t : mesh.triangles) {
        nearest = std::min(
            nearest,
            distance_to_triangle(p, mesh.positions[t.x], mesh.positions[t.y], mesh.positions[t.z]));
    }
    return nearest;
}

}  // namespace dapple
