#include "geometry/make_column.h"

#include <cmath>

namespace dapple {

namespace {

constexpr uint32_t kSides = 96;

// A corner of the level outline, and the side's normals before and after it.
struct Corner {
    Vec2 at, normal_before, normal_after;
};

// The corners run from x towards z, which is anticlockwise as seen from below.
std::vector<Corner> outline_of(const Column& column) {
    std::vector<Corner> corners;
    if (!column.round) {
        const Vec2 h = 0.5F * column.size;
        return {{Vec2(h.x, h.y), Vec2(1, 0), Vec2(0, 1)},
                {Vec2(-h.x, h.y), Vec2(0, 1), Vec2(-1, 0)},
                {Vec2(-h.x, -h.y), Vec2(-1, 0), Vec2(0, -1)},
                {Vec2(h.x, -h.y), Vec2(0, -1), Vec2(1, 0)}};
    }
    for (uint32_t i = 0; i < kSides; ++i) {
        const double phi = 2 * kPi * i / kSides;
        const Vec2 around(std::cos(phi), std::sin(phi));
        corners.push_back({0.5F * column.size.x * around, around, around});
    }
    return corners;
}

}  // namespace

Mesh make_column(const Column& column) {
    Mesh mesh;
    mesh.name = column.name;
    const auto vertex = [&](const Vec2& at, float up, const Normal& normal) {
        mesh.positions.push_back(column.position + Vec3(at.x, up, at.y));
        mesh.normals.push_back(normal);
        return static_cast<uint32_t>(mesh.positions.size() - 1);
    };
    const auto level = [](const Vec2& n) { return Normal(n.x, 0, n.y); };
    const float top = column.height;
    const uint32_t foot_centre = vertex(Vec2(0), 0, Normal(0, -1, 0));
    const uint32_t head_centre = vertex(Vec2(0), top, Normal(0, 1, 0));
    const std::vector<Corner> corners = outline_of(column);
    for (size_t i = 0; i < corners.size(); ++i) {
        const Corner& from = corners[i];
        const Corner& to = corners[(i + 1) % corners.size()];
        const uint32_t a = vertex(from.at, 0, level(from.normal_after));
        const uint32_t b = vertex(to.at, 0, level(to.normal_before));
        const uint32_t c = vertex(to.at, top, level(to.normal_before));
        const uint32_t d = vertex(from.at, top, level(from.normal_after));
        mesh.triangles.emplace_back(a, d, c);
        mesh.triangles.emplace_back(a, c, b);
        mesh.triangles.emplace_back(
            foot_centre, vertex(from.at, 0, Normal(0, -1, 0)), vertex(to.at, 0, Normal(0, -1, 0)));
        mesh.triangles.emplace_back(head_centre,
                                    vertex(to.at, top, Normal(0, 1, 0)),
                                    vertex(from.at, top, Normal(0, 1, 0)));
    }
    mesh.materials.assign(mesh.triangles.size(), column.material);
    return mesh;
}

}  // namespace dapple
