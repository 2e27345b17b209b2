#include "scene/models/check_mesh.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/kept_parts.h"
#include "scene/checks.h"

namespace dapple {

namespace {

// For each vertex, the lowest index of all vertices at the same place.
std::vector<uint32_t> weld(const std::vector<Point>& positions) {
    std::vector<uint32_t> order(positions.size());
    std::iota(order.begin(), order.end(), 0U);
    const auto place = [&](uint32_t i) {
        return std::array{positions[i].x, positions[i].y, positions[i].z};
    };
    std::sort(order.begin(), order.end(), [&](uint32_t a, uint32_t b) {
        return std::pair(place(a), a) < std::pair(place(b), b);
    });
    std::vector<uint32_t> welded(positions.size());
    for (size_t i = 0; i < order.size(); ++i) {
        const bool same = i > 0 && place(order[i]) == place(order[i - 1]);
        welded[order[i]] = same ? welded[order[i - 1]] : order[i];
    }
    return welded;
}

std::vector<glm::uvec3> welded_triangles(const Mesh& mesh) {
    const std::vector<uint32_t> welded = weld(mesh.positions);
    std::vector<glm::uvec3> triangles;
    triangles.reserve(mesh.triangles.size());
    for (const glm::uvec3& t : mesh.triangles) {
        triangles.emplace_back(welded[t.x], welded[t.y], welded[t.z]);
    }
    return triangles;
}

struct Edge {
    uint32_t low, high;
    bool forward;  // from low to high

    bool same_place(const Edge& b) const { return low == b.low && high == b.high; }
    bool operator<(const Edge& b) const { return std::pair(low, high) < std::pair(b.low, b.high); }
};

// The edges of all triangles, sorted by their vertices. Triangles that use a vertex twice are left
// out.
std::vector<Edge> sorted_edges(const Mesh& mesh) {
    std::vector<Edge> edges;
    edges.reserve(3 * mesh.triangles.size());
    for (const glm::uvec3& t : welded_triangles(mesh)) {
        if (t.x == t.y || t.y == t.z || t.z == t.x) continue;
        for (int i = 0; i < 3; ++i) {
            const uint32_t a = t[i];
            const uint32_t b = t[(i + 1) % 3];
            edges.push_back({std::min(a, b), std::max(a, b), a < b});
        }
    }
    std::sort(edges.begin(), edges.end());
    return edges;
}

glm::dvec3 corner(const Mesh& mesh, const glm::uvec3& triangle, int i) {
    return glm::dvec3(mesh.positions[triangle[i]]);
}

double volume_below(const Mesh& mesh, const glm::uvec3& t, const glm::dvec3& origin) {
    const glm::dvec3 a = corner(mesh, t, 0) - origin;
    const glm::dvec3 b = corner(mesh, t, 1) - origin;
    const glm::dvec3 c = corner(mesh, t, 2) - origin;
    return glm::dot(a, glm::cross(b, c)) / 6;
}

uint32_t root_of(std::vector<uint32_t>& parent, uint32_t i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
}

// Solid angle of a triangle seen from p (Van Oosterom, Strackee 1983), signed, sr (E66).
double solid_angle(const Mesh& mesh, const glm::uvec3& t, const glm::dvec3& p) {
    const glm::dvec3 a = corner(mesh, t, 0) - p;
    const glm::dvec3 b = corner(mesh, t, 1) - p;
    const glm::dvec3 c = corner(mesh, t, 2) - p;
    const double la = glm::length(a);
    const double lb = glm::length(b);
    const double lc = glm::length(c);
    return 2 * std::atan2(
                   glm::dot(a, glm::cross(b, c)),
                   la * lb * lc + glm::dot(a, b) * lc + glm::dot(b, c) * la + glm::dot(c, a) * lb);
}

// Each vertex belongs to one shell, so its normal is turned too.
void flip(Mesh& mesh, const Shell& shell) {
    std::vector<uint32_t> vertices;
    for (const uint32_t i : shell.triangles) {
        std::swap(mesh.triangles[i].y, mesh.triangles[i].z);
        for (int k = 0; k < 3; ++k) vertices.push_back(mesh.triangles[i][k]);
    }
    if (mesh.normals.empty()) return;
    std::sort(vertices.begin(), vertices.end());
    vertices.erase(std::unique(vertices.begin(), vertices.end()), vertices.end());
    for (const uint32_t i : vertices) mesh.normals[i] = -mesh.normals[i];
}

}  // namespace

EdgeReport check_edges(const Mesh& mesh) {
    EdgeReport report;
    const std::vector<Edge> edges = sorted_edges(mesh);
    for (size_t first = 0; first < edges.size();) {
        size_t last = first;
        int64_t balance = 0;
        for (; last < edges.size() && edges[last].same_place(edges[first]); ++last) {
            balance += edges[last].forward ? 1 : -1;
        }
        if (balance != 0) {
            if (report.open + report.twisted == 0) {
                report.first =
                    0.5F * (mesh.positions[edges[first].low] + mesh.positions[edges[first].high]);
            }
            (last - first == 1 ? report.open : report.twisted) += 1;
        }
        first = last;
    }
    return report;
}

std::string problem_as_glass(const Mesh& mesh) {
    const EdgeReport report = check_edges(mesh);
    if (report.open + report.twisted == 0) return "";
    const auto count = [](int64_t n, const std::string& what) {
        return std::to_string(n) + " " + what + (n == 1 ? " edge" : " edges");
    };
    const std::string near = ", the first near (" + number_text(report.first.x) + ", " +
                             number_text(report.first.y) + ", " + number_text(report.first.z) +
                             ") m; ";
    if (report.open > 0) return "has " + count(report.open, "open") + near + "glass must be closed";
    return "has " + count(report.twisted, "twisted") + near +
           "neighbouring faces must turn the same way";
}

double signed_volume(const Mesh& mesh) {
    double volume = 0;
    for (const glm::uvec3& t : mesh.triangles) volume += volume_below(mesh, t, glm::dvec3(0));
    return volume;
}

namespace {

std::vector<Shell> make_shells(const Mesh& mesh) {
    const std::vector<glm::uvec3> triangles = welded_triangles(mesh);
    std::vector<uint32_t> parent(mesh.positions.size());
    std::iota(parent.begin(), parent.end(), 0U);
    for (const glm::uvec3& t : triangles) {
        parent[root_of(parent, t.x)] = root_of(parent, t.y);
        parent[root_of(parent, t.y)] = root_of(parent, t.z);
    }
    std::vector<int32_t> shell_of_root(mesh.positions.size(), -1);
    std::vector<Shell> shells;
    for (uint32_t i = 0; i < triangles.size(); ++i) {
        int32_t& number = shell_of_root[root_of(parent, triangles[i].x)];
        if (number < 0) {
            number = static_cast<int32_t>(shells.size());
            shells.emplace_back();
        }
        Shell& shell = shells[static_cast<size_t>(number)];
        shell.triangles.push_back(i);
        for (int k = 0; k < 3; ++k) shell.bounds.add(mesh.positions[mesh.triangles[i][k]]);
    }
    for (Shell& shell : shells) {
        // Relative to the shell's centre, so that a small shell far away is not rounded.
        const glm::dvec3 origin(shell.bounds.centre());
        for (const uint32_t i : shell.triangles) {
            shell.volume += volume_below(mesh, mesh.triangles[i], origin);
        }
    }
    return shells;
}

template <class T>
std::string_view bytes_of(const std::vector<T>& values) {
    return {reinterpret_cast<const char*>(values.data()), values.size() * sizeof(T)};
}

}  // namespace

std::vector<Shell> find_shells(const Mesh& mesh) {
    if (!keeps_parts()) return make_shells(mesh);
    std::string key = "shells ";
    add_content_to_key(key, bytes_of(mesh.positions));
    add_content_to_key(key, bytes_of(mesh.triangles));
    return *kept_or_made<std::vector<Shell>>(
        key,
        [&] { return make_shells(mesh); },
        [&](const std::vector<Shell>& shells) {
            return shells.size() * sizeof(Shell) + mesh.triangles.size() * sizeof(uint32_t);
        });
}

bool is_closed(const Mesh& mesh, const Shell& shell) {
    Mesh part;
    part.positions = mesh.positions;
    for (const uint32_t i : shell.triangles) part.triangles.push_back(mesh.triangles[i]);
    const EdgeReport report = check_edges(part);
    return report.open + report.twisted == 0;
}

// The solid angle of a closed shell is ±4π from inside and 0 from outside.
bool contains(const Mesh& mesh, const Shell& shell, const Point& p) {
    const Bounds& bounds = shell.bounds;
    if (glm::any(glm::lessThan(p, bounds.low)) || glm::any(glm::greaterThan(p, bounds.high))) {
        return false;
    }
    double angle = 0;
    for (const uint32_t i : shell.triangles)
        angle += solid_angle(mesh, mesh.triangles[i], glm::dvec3(p));
    return std::abs(angle) > 2 * kPi;
}

void orient_outward(Mesh& mesh) {
    const std::vector<Shell> shells = find_shells(mesh);
    std::vector<bool> inner(shells.size(), false);
    for (size_t i = 0; i < shells.size(); ++i) {
        const Point& vertex = mesh.positions[mesh.triangles[shells[i].triangles[0]].x];
        for (size_t k = 0; k < shells.size(); ++k) {
            if (k != i && contains(mesh, shells[k], vertex)) inner[i] = !inner[i];
        }
    }
    for (size_t i = 0; i < shells.size(); ++i) {
        if ((shells[i].volume < 0) != inner[i]) flip(mesh, shells[i]);
    }
}

}  // namespace dapple
