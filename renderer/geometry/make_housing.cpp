#include "geometry/make_housing.h"

#include <cmath>

namespace dapple {

namespace {

constexpr int kCanSegments = 64;

// One edge of the front's outline, with the side's outward normals at its ends. In the plane of the
// front, x to the right and y up for someone who looks at it; edges run anticlockwise.
struct Edge {
    Vec2 from, to;
    Vec2 from_normal, to_normal;
};

std::vector<Edge> circle_edges(float radius) {
    std::vector<Edge> edges;
    const auto at = [](int i) {
        const double phi = 2 * kPi * (i % kCanSegments) / kCanSegments;
        return Vec2(std::cos(phi), std::sin(phi));
    };
    for (int i = 0; i < kCanSegments; ++i) {
        edges.push_back({radius * at(i), radius * at(i + 1), at(i), at(i + 1)});
    }
    return edges;
}

std::vector<Edge> rectangle_edges(const Vec2& size) {
    const float x = 0.5F * size.x;
    const float y = 0.5F * size.y;
    return {{Vec2(x, -y), Vec2(x, y), Vec2(1, 0), Vec2(1, 0)},
            {Vec2(x, y), Vec2(-x, y), Vec2(0, 1), Vec2(0, 1)},
            {Vec2(-x, y), Vec2(-x, -y), Vec2(-1, 0), Vec2(-1, 0)},
            {Vec2(-x, -y), Vec2(x, -y), Vec2(0, -1), Vec2(0, -1)}};
}

// A prism from the front's centre backwards along the axis: two caps and the side between them.
Mesh make_prism(const std::vector<Edge>& edges,
                const Point& front,
                const Frame& frame,
                float length) {
    const Direction axis = frame.n;
    const Point back = front - length * axis;
    const auto in_plane = [&](const Vec2& p) { return -p.x * frame.s + p.y * frame.t; };

    Mesh mesh;
    const auto vertex = [&](const Point& p, const Normal& n) {
        mesh.positions.push_back(p);
        mesh.normals.push_back(n);
        return static_cast<uint32_t>(mesh.positions.size() - 1);
    };
    const uint32_t front_centre = vertex(front, axis);
    const uint32_t back_centre = vertex(back, -axis);
    for (const Edge& edge : edges) {
        const Vec3 from = in_plane(edge.from);
        const Vec3 to = in_plane(edge.to);
        const uint32_t front_from = vertex(front + from, axis);
        const uint32_t front_to = vertex(front + to, axis);
        const uint32_t back_from = vertex(back + from, -axis);
        const uint32_t back_to = vertex(back + to, -axis);
        mesh.triangles.emplace_back(front_centre, front_from, front_to);
        mesh.triangles.emplace_back(back_centre, back_to, back_from);

        const uint32_t a = vertex(back + from, in_plane(edge.from_normal));
        const uint32_t b = vertex(back + to, in_plane(edge.to_normal));
        const uint32_t c = vertex(front + to, in_plane(edge.to_normal));
        const uint32_t d = vertex(front + from, in_plane(edge.from_normal));
        mesh.triangles.emplace_back(a, b, c);
        mesh.triangles.emplace_back(a, c, d);
    }
    return mesh;
}

}  // namespace

Mesh make_housing(const Fixture& fixture, MaterialId material) {
    if (!(fixture.housing_diameter > 0)) return {};
    const float length = fixture.housing_length > 0 ? fixture.housing_length : kHousingLength;
    const float gap = fixture.form == FixtureForm::kBare
                          ? 0.5F * fixture.source_diameter + kBareHousingGap
                          : kHousingGap;
    const std::vector<Edge> edges = fixture.form == FixtureForm::kPanel
                                        ? rectangle_edges(fixture.panel_size + Vec2(kPanelRim))
                                        : circle_edges(0.5F * fixture.housing_diameter);
    Mesh mesh =
        make_prism(edges, fixture.position - gap * fixture.axis, fixture_frame(fixture), length);
    mesh.name = fixture.name;
    mesh.materials.assign(mesh.triangles.size(), material);
    return mesh;
}

}  // namespace dapple
