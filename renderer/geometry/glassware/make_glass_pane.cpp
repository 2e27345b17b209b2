#include "geometry/glassware/make_glass_pane.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

using Corners = std::vector<glm::dvec3>;

// Adds a convex flat face with vertices of its own. The corners may run either way around.
void add_face(SolidMesh& mesh, Corners corners, const glm::dvec3& normal) {
    const glm::dvec3 turn = glm::cross(corners[1] - corners[0], corners.back() - corners[0]);
    if (glm::dot(turn, normal) < 0) std::reverse(corners.begin() + 1, corners.end());
    const auto first = static_cast<uint32_t>(mesh.positions.size());
    for (const glm::dvec3& p : corners) {
        mesh.positions.push_back(p);
        mesh.normals.push_back(normal);
    }
    const auto count = static_cast<uint32_t>(corners.size());
    for (uint32_t i = 1; i + 1 < count; ++i) {
        mesh.triangles.emplace_back(first, first + i, first + i + 1);
    }
}

// From `from` to `to` in steps of at most `step`, on whole multiples of it in between.
std::vector<double> grid_places(double from, double to, double step) {
    std::vector<double> places{from};
    const auto last = static_cast<int64_t>(std::ceil(to / step)) - 1;
    for (auto i = static_cast<int64_t>(std::floor(from / step)) + 1; i <= last; ++i) {
        const double place = static_cast<double>(i) * step;
        const double near = 1e-3 * step;  // no sliver beside the ends
        if (place > from + near && place < to - near) places.push_back(place);
    }
    places.push_back(to);
    return places;
}

// The joints of reeds are at whole steps, because their crests are at whole periods.
std::vector<double> columns(const glm::dvec3& size, const Relief& relief) {
    double step = size.x;
    if (relief.ruled()) {
        const double wanted = std::ceil(reed_steps(relief, 1) / kSegmentsPerReed);
        step = relief.period / (kSegmentsPerReed * std::max(4.0, wanted));
    } else {
        step = size.x / relief_steps(relief, size.x, size.x * size.y);
    }
    return grid_places(-0.5 * size.x, 0.5 * size.x, step);
}

// Many rows where reeds fade and few elsewhere, where the surface is ruled.
std::vector<double> rows(const glm::dvec3& size, const Relief& relief) {
    if (!relief.ruled()) {
        return grid_places(0, size.y, size.y / relief_steps(relief, size.y, size.x * size.y));
    }
    constexpr int kFadeRows = 40;
    std::vector<double> places{0};
    for (int i = 0; i <= kFadeRows; ++i) {
        places.push_back(relief.low + relief.fade * i / kFadeRows);
    }
    for (int i = 0; i <= kFadeRows; ++i) {
        places.push_back(relief.high - relief.fade * (kFadeRows - i) / kFadeRows);
    }
    places.push_back(size.y);
    return places;
}

void add_front(SolidMesh& mesh,
               const std::vector<double>& xs,
               const std::vector<double>& ys,
               double z,
               const Relief& relief) {
    const auto first = static_cast<uint32_t>(mesh.positions.size());
    const auto across = static_cast<uint32_t>(xs.size());
    for (const double y : ys) {
        for (const double x : xs) {
            const ReliefPoint at = relief.at(x, y);
            mesh.positions.emplace_back(x, y, z - at.cut);
            mesh.normals.push_back(glm::normalize(glm::dvec3(at.along_x, at.along_y, 1)));
        }
    }
    for (uint32_t j = 0; j + 1 < ys.size(); ++j) {
        for (uint32_t i = 0; i + 1 < across; ++i) {
            const uint32_t a = first + j * across + i;
            mesh.triangles.emplace_back(a, a + 1, a + across + 1);
            mesh.triangles.emplace_back(a, a + across + 1, a + across);
        }
    }
}

}  // namespace

SolidMesh make_pane_mesh(const glm::dvec3& size, const Relief& relief) {
    const glm::dvec3 half = 0.5 * size;
    const bool plain = !relief.any();
    const std::vector<double> xs = plain ? std::vector{-half.x, half.x} : columns(size, relief);
    const std::vector<double> ys = plain ? std::vector{0.0, size.y} : rows(size, relief);
    SolidMesh mesh;
    add_front(mesh, xs, ys, half.z, relief);
    for (const double side : {-1.0, 1.0}) {
        const double y = side < 0 ? 0 : size.y;
        Corners level{{half.x, y, -half.z}, {-half.x, y, -half.z}};
        for (const double x : xs) level.emplace_back(x, y, half.z);
        add_face(mesh, level, {0, side, 0});
        Corners upright{{side * half.x, size.y, -half.z}, {side * half.x, 0, -half.z}};
        for (const double at : ys) upright.emplace_back(side * half.x, at, half.z);
        add_face(mesh, upright, {side, 0, 0});
    }
    mesh.inner = mesh.triangles.size();
    add_face(mesh,
             {{-half.x, 0, -half.z},
              {half.x, 0, -half.z},
              {half.x, size.y, -half.z},
              {-half.x, size.y, -half.z}},
             {0, 0, -1});
    return mesh;
}

}  // namespace dapple
