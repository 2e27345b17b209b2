#include "render/packing/silhouettes.h"

#include <algorithm>

#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

// Above 0 if the way from a over b to c turns left.
double turn(const Vec2& a, const Vec2& b, const Vec2& c) {
    return (static_cast<double>(b.x) - a.x) * (static_cast<double>(c.y) - a.y) -
           (static_cast<double>(b.y) - a.y) * (static_cast<double>(c.x) - a.x);
}

bool is_before(const Vec2& a, const Vec2& b) {
    return a.x < b.x || (a.x == b.x && a.y < b.y);
}

// One half of the hull of sorted points.
template <class Iterator>
FlatPolygon half_hull(Iterator first, Iterator last) {
    FlatPolygon half;
    for (; first != last; ++first) {
        while (half.size() >= 2 && turn(half[half.size() - 2], half.back(), *first) <= 0) {
            half.pop_back();
        }
        half.push_back(*first);
    }
    half.pop_back();  // the other half begins with it
    return half;
}

}  // namespace

FlatPolygon convex_hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(), is_before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    FlatPolygon hull = half_hull(points.begin(), points.end());
    const FlatPolygon rest = half_hull(points.rbegin(), points.rend());
    hull.insert(hull.end(), rest.begin(), rest.end());
    return hull;
}

std::vector<FlatPolygon> outline_of(const Mesh& mesh, SheetView view, bool side_shows_z) {
    if (mesh.positions.empty()) return {};
    std::vector<Vec2> points;
    for (const Point& p : mesh.positions) points.push_back(in_view(p, view, side_shows_z));
    return {convex_hull(std::move(points))};
}

std::vector<FlatPolygon> outlines_of_parts(const Mesh& mesh, SheetView view, bool side_shows_z) {
    std::vector<FlatPolygon> outlines;
    for (const Shell& shell : find_shells(mesh)) {
        std::vector<Vec2> points;
        for (const uint32_t t : shell.triangles) {
            for (int c = 0; c < 3; ++c) {
                const Point& p = mesh.positions[mesh.triangles[t][c]];
                points.push_back(in_view(p, view, side_shows_z));
            }
        }
        outlines.push_back(convex_hull(std::move(points)));
    }
    return outlines;
}

std::vector<Vec2> cut_of(
    const std::vector<Mesh>& meshes, int axis, float at, SheetView view, bool side_shows_z) {
    std::vector<Vec2> ends;
    for (const Mesh& mesh : meshes) {
        for (const glm::uvec3& t : mesh.triangles) {
            std::vector<Vec2> met;
            for (int c = 0; c < 3; ++c) {
                const Point& a = mesh.positions[t[c]];
                const Point& b = mesh.positions[t[(c + 1) % 3]];
                if ((a[axis] < at) == (b[axis] < at)) continue;
                const Point p = a + (at - a[axis]) / (b[axis] - a[axis]) * (b - a);
                met.push_back(in_view(p, view, side_shows_z));
            }
            if (met.size() == 2) ends.insert(ends.end(), met.begin(), met.end());
        }
    }
    return ends;
}

}  // namespace dapple
