#include "scene/room/find_rectangle.h"

#include <algorithm>
#include <cmath>

#include "scene/checks.h"

namespace dapple {

namespace {

using DVec3 = glm::dvec3;

std::vector<DVec3> corners_of(const Mesh& mesh, const std::vector<uint32_t>& triangles) {
    std::vector<DVec3> points;
    for (const uint32_t i : triangles) {
        for (int k = 0; k < 3; ++k) points.emplace_back(mesh.positions[mesh.triangles[i][k]]);
    }
    return points;
}

// The point with the largest `measure`.
template <typename Measure>
DVec3 farthest(const std::vector<DVec3>& points, const Measure& measure) {
    return *std::max_element(points.begin(), points.end(), [&](const DVec3& p, const DVec3& q) {
        return measure(p) < measure(q);
    });
}

// The sum of the triangles' normals, each as long as twice the area, all on the side of the
// largest.
struct Faces {
    DVec3 normal{0};
    double area = 0;  // m², of all
};

Faces add_faces(const std::vector<DVec3>& points) {
    std::vector<DVec3> crosses;
    for (size_t i = 0; i < points.size(); i += 3) {
        crosses.push_back(glm::cross(points[i + 1] - points[i], points[i + 2] - points[i]));
    }
    const DVec3 largest = farthest(crosses, [](const DVec3& v) { return glm::length(v); });
    Faces faces;
    for (const DVec3& cross : crosses) {
        faces.normal += glm::dot(cross, largest) < 0 ? -cross : cross;
        faces.area += 0.5 * glm::length(cross);
    }
    return faces;
}

// Corners in their order round the rectangle: a and c are opposite, and so are b and d.
struct Corners {
    DVec3 a, b, c, d;

    DVec3 centre() const { return 0.25 * (a + b + c + d); }
    double width() const { return glm::distance(a, b); }
    double height() const { return glm::distance(b, c); }
};

Corners find_corners(const std::vector<DVec3>& points, const DVec3& normal) {
    Corners corners{};
    corners.a = farthest(points, [&](const DVec3& p) { return glm::distance(p, points[0]); });
    const DVec3 a = corners.a;
    corners.c = farthest(points, [&](const DVec3& p) { return glm::distance(p, a); });
    const DVec3 aside = glm::normalize(glm::cross(normal, corners.c - a));
    corners.b = farthest(points, [&](const DVec3& p) { return -glm::dot(p - a, aside); });
    corners.d = farthest(points, [&](const DVec3& p) { return glm::dot(p - a, aside); });
    return corners;
}

std::string millimetres(double metres) {
    return number_text(std::ceil(1e4 * metres) / 10) + " mm";
}

// Why the faces are not a flat rectangle with these corners; "" if they are.
std::string shape_problem(const std::vector<DVec3>& points,
                          const DVec3& normal,
                          double area,
                          const Corners& corners) {
    const auto& [a, b, c, d] = corners;
    const DVec3 centre = corners.centre();
    double bend = 0;
    for (const DVec3& p : points) bend = std::max(bend, std::abs(glm::dot(p - centre, normal)));
    if (bend > kFlatness) return "is bent by " + millimetres(bend);

    const double skew = std::max(glm::length(0.5 * (a + c) - 0.5 * (b + d)),
                                 std::abs(glm::distance(a, c) - glm::distance(b, d)));
    if (skew > kFlatness) {
        return "is not a rectangle: its diagonals differ by " + millimetres(skew);
    }
    const double width = corners.width();
    const double height = corners.height();
    const double sides = std::round(area / (width * height));  // 1, or 2 of a double face
    const bool covered = (sides == 1 || sides == 2) && std::abs(area - sides * width * height) <
                                                           2 * sides * kFlatness * (width + height);
    if (covered) return "";
    return "covers " + number_text(area) + " m² of a rectangle of " + number_text(width * height) +
           " m²";
}

// The height of the rectangle is the side that rises more steeply.
Rectangle upright_rectangle(const Corners& corners, const DVec3& normal) {
    const double width = corners.width();
    const double height = corners.height();
    const DVec3 along_width = (corners.b - corners.a) / width;
    const DVec3 along_height = (corners.c - corners.b) / height;
    const bool swapped = std::abs(along_width.y) > std::abs(along_height.y);
    Rectangle rectangle;
    rectangle.centre = Point(corners.centre());
    rectangle.facing = Direction(normal);
    rectangle.up = Direction(swapped ? along_width : along_height);
    rectangle.size = swapped ? Vec2(height, width) : Vec2(width, height);
    return rectangle;
}

}  // namespace

RectangleSearch find_rectangle(const Mesh& mesh, const std::vector<uint32_t>& triangles) {
    const std::vector<DVec3> points = corners_of(mesh, triangles);
    const Faces faces = add_faces(points);
    if (!(glm::length(faces.normal) > 0)) return {std::nullopt, "has no area"};
    const DVec3 normal = glm::normalize(faces.normal);
    const Corners corners = find_corners(points, normal);
    const std::string problem = shape_problem(points, normal, faces.area, corners);
    if (!problem.empty()) return {std::nullopt, problem};
    return {upright_rectangle(corners, normal), ""};
}

}  // namespace dapple
