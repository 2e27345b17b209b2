#include "set/gltf/gltf_nodes.h"

namespace dapple {

namespace {

using Vec3 = std::array<double, 3>;

Vec3 cross_product(const Vec3& a, const Vec3& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Vec3 combine(const std::array<Vec3, 3>& axes, const Vec3& by) {
    Vec3 sum{};
    for (size_t i = 0; i < 3; ++i) {
        for (size_t k = 0; k < 3; ++k) sum[k] += axes[i][k] * by[i];
    }
    return sum;
}

// `matrix` in columns, or a shift, a turn as a unit quaternion (x, y, z, w) and a scale.
GltfPlacement placement_of(const GltfValue& node) {
    GltfPlacement placement;
    const GltfValue matrix = node.member("matrix");
    if (matrix.is_there()) {
        const std::vector<double> m = matrix.numbers(std::vector<double>(16, 0));
        for (size_t i = 0; i < 3; ++i) {
            for (size_t k = 0; k < 3; ++k) placement.axes[i][k] = m[4 * i + k];
            placement.shift[i] = m[12 + i];
        }
        return placement;
    }
    const std::vector<double> shift = node.member("translation").numbers({0, 0, 0});
    const std::vector<double> q = node.member("rotation").numbers({0, 0, 0, 1});
    const std::vector<double> scale = node.member("scale").numbers({1, 1, 1});
    const double length2 = q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3];
    if (!(length2 > 0)) node.member("rotation").fail("must be a unit quaternion");
    const double s = 2 / length2;
    const double x = q[0], y = q[1], z = q[2], w = q[3];
    placement.axes = {{{1 - s * (y * y + z * z), s * (x * y + z * w), s * (x * z - y * w)},
                       {s * (x * y - z * w), 1 - s * (x * x + z * z), s * (y * z + x * w)},
                       {s * (x * z + y * w), s * (y * z - x * w), 1 - s * (x * x + y * y)}}};
    for (size_t i = 0; i < 3; ++i) {
        for (double& coordinate : placement.axes[i]) coordinate *= scale[i];
        placement.shift[i] = shift[i];
    }
    return placement;
}

struct Visit {
    GltfValue node;  // its index
    GltfPlacement parent;
};

// The indices of the nodes to begin with.
std::vector<Visit> find_roots(const GltfValue& root) {
    std::vector<Visit> roots;
    const GltfValue scenes = root.member("scenes");
    if (scenes.size() == 0) root.member("scenes").fail("has no scene, so nothing is shown");
    const GltfValue chosen = root.member("scene");
    const GltfValue scene = chosen.is_there() ? chosen.in_list(root, "scenes") : scenes.entry(0);
    const GltfValue list = scene.member("nodes");
    for (size_t i = 0; i < list.size(); ++i) roots.push_back({list.entry(i), {}});
    return roots;
}

}  // namespace

Vec3 GltfPlacement::point(const Vec3& p) const {
    Vec3 sum = combine(axes, p);
    for (size_t k = 0; k < 3; ++k) sum[k] += shift[k];
    return sum;
}

Vec3 GltfPlacement::normal(const Vec3& n) const {
    return combine({cross_product(axes[1], axes[2]),
                    cross_product(axes[2], axes[0]),
                    cross_product(axes[0], axes[1])},
                   n);
}

double GltfPlacement::determinant() const {
    const Vec3 c = cross_product(axes[1], axes[2]);
    return axes[0][0] * c[0] + axes[0][1] * c[1] + axes[0][2] * c[2];
}

GltfPlacement GltfPlacement::operator*(const GltfPlacement& first) const {
    GltfPlacement both;
    for (size_t i = 0; i < 3; ++i) both.axes[i] = combine(axes, first.axes[i]);
    both.shift = point(first.shift);
    return both;
}

std::vector<GltfInstance> read_gltf_nodes(const GltfValue& root) {
    std::vector<GltfInstance> instances;
    std::vector<bool> is_seen(root.member("nodes").size(), false);
    std::vector<Visit> open = find_roots(root);
    while (!open.empty()) {
        const Visit visit = open.back();
        open.pop_back();
        const GltfValue node = visit.node.in_list(root, "nodes");
        const auto index = static_cast<size_t>(visit.node.whole());
        if (is_seen[index]) node.fail("is reached twice; nodes must form a tree");
        is_seen[index] = true;
        const GltfPlacement placement = visit.parent * placement_of(node);
        const GltfValue mesh = node.member("mesh");
        if (mesh.is_there()) instances.push_back({mesh, placement});
        const GltfValue children = node.member("children");
        for (size_t i = children.size(); i > 0; --i) {
            open.push_back({children.entry(i - 1), placement});
        }
    }
    return instances;
}

}  // namespace dapple
