#include "geometry/glassware/make_glass_liquid.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "geometry/glassware/fill_loops.h"

namespace dapple {

namespace {

constexpr double kNear = 1e-8;  // m; nearer to the plane than this counts as in it

// Signed heights over the plane. A plane through vertices is moved up until it misses all vertices,
// so that every cut is inside an edge. The steps of 0.1 µm are too small to be seen.
std::vector<double> heights_over(const SolidMesh& solid, const glm::dvec3& up, double height) {
    std::vector<double> over(solid.positions.size());
    for (bool missed = false; !missed; height += 1e-7) {
        missed = true;
        for (size_t i = 0; i < over.size(); ++i) {
            over[i] = glm::dot(up, solid.positions[i]) - height;
            missed = missed && std::abs(over[i]) > kNear;
        }
    }
    return over;
}

// Collects the cut mesh. Vertices below the plane keep their data; each cut edge gets one vertex.
class LevelCut {
  public:
    LevelCut(const SolidMesh& solid, std::vector<double> over)
        : solid_(solid), over_(std::move(over)), kept_(solid.positions.size(), kNone) {}

    void add(const glm::uvec3& triangle) {
        for (uint32_t first = 0; first < 3; ++first) {
            const uint32_t a = triangle[static_cast<int>(first)];
            const uint32_t b = triangle[static_cast<int>((first + 1) % 3)];
            const uint32_t c = triangle[static_cast<int>((first + 2) % 3)];
            if (below(a) && !below(b) && !below(c)) {
                out_.triangles.emplace_back(keep(a), cut(a, b), cut(a, c));
                lid_edges_.push_back({cut(a, b), cut(a, c)});
                return;
            }
            if (!below(a) && below(b) && below(c)) {
                out_.triangles.emplace_back(keep(b), keep(c), cut(c, a));
                out_.triangles.emplace_back(keep(b), cut(c, a), cut(b, a));
                lid_edges_.push_back({cut(c, a), cut(b, a)});
                return;
            }
        }
        if (below(triangle.x)) {
            out_.triangles.emplace_back(keep(triangle.x), keep(triangle.y), keep(triangle.z));
        }
    }

    // The lid has vertices of its own: its edge is a crease.
    SolidMesh closed_by_lid(const glm::dvec3& up) {
        const glm::dvec3 u = glm::normalize(
            glm::cross(up, std::abs(up.x) < 0.5 ? glm::dvec3(1, 0, 0) : glm::dvec3(0, 0, 1)));
        const glm::dvec3 v = glm::cross(up, u);
        std::map<std::array<double, 3>, uint32_t> at_place;
        std::vector<glm::dvec2> flat;
        const auto first = static_cast<uint32_t>(out_.positions.size());
        const auto lid_vertex = [&](uint32_t i) {
            const glm::dvec3 p = out_.positions[i];
            const auto [at, is_new] = at_place.try_emplace({p.x, p.y, p.z}, 0U);
            if (is_new) {
                at->second = static_cast<uint32_t>(flat.size());
                flat.emplace_back(glm::dot(p, u), glm::dot(p, v));
                out_.positions.push_back(p);
                out_.normals.push_back(up);
            }
            return at->second;
        };
        std::vector<std::pair<uint32_t, uint32_t>> edges;
        for (const auto& [a, b] : lid_edges_) {
            // Below the lid the side's triangle runs from a to b, so the lid's runs back.
            edges.emplace_back(lid_vertex(b), lid_vertex(a));
        }
        for (const glm::uvec3& t : fill_loops(flat, chain_loops(edges))) {
            out_.triangles.push_back(t + first);
        }
        return std::move(out_);
    }

  private:
    static constexpr uint32_t kNone = ~0U;

    bool below(uint32_t i) const { return over_[i] < 0; }

    uint32_t keep(uint32_t i) {
        if (kept_[i] == kNone) {
            kept_[i] = static_cast<uint32_t>(out_.positions.size());
            out_.positions.push_back(solid_.positions[i]);
            out_.normals.push_back(solid_.normals[i]);
        }
        return kept_[i];
    }

    // Always computed from the lower end, so that both triangles of an edge get the same place.
    uint32_t cut(uint32_t low, uint32_t high) {
        if (over_[low] > over_[high]) std::swap(low, high);
        const auto [at, is_new] = cuts_.try_emplace({low, high}, 0U);
        if (is_new) {
            at->second = static_cast<uint32_t>(out_.positions.size());
            const double x = over_[low] / (over_[low] - over_[high]);
            out_.positions.push_back(glm::mix(solid_.positions[low], solid_.positions[high], x));
            out_.normals.push_back(
                glm::normalize(glm::mix(solid_.normals[low], solid_.normals[high], x)));
        }
        return at->second;
    }

    const SolidMesh& solid_;
    std::vector<double> over_;
    std::vector<uint32_t> kept_;
    std::map<std::pair<uint32_t, uint32_t>, uint32_t> cuts_;
    std::vector<std::pair<uint32_t, uint32_t>> lid_edges_;
    SolidMesh out_;
};

// The whole inside as a closed outline: from the axis at the bottom, up the side to the rim's
// rounding, and straight back to the axis.
Outline full_body(const Vessel& vessel) {
    Outline body = reversed_outline(offset_outline(vessel.cavity, -0.5 * vessel.wall));
    const OutlinePiece& side = body.back();
    const glm::dvec2 top = position_at(side, side.length);
    body.push_back({.start = top, .heading = kPi, .length = top.x});
    return body;
}

// The lowest height of the rim along `up`.
double spill_height(const Outline& body, const glm::dvec3& up) {
    const glm::dvec2 edge = body.back().start;
    return up.y * edge.y - std::hypot(up.x, up.z) * edge.x;
}

}  // namespace

SolidMesh cut_level(const SolidMesh& solid, const glm::dvec3& up, double height) {
    LevelCut cut(solid, heights_over(solid, up, height));
    for (const glm::uvec3& triangle : solid.triangles) cut.add(triangle);
    return cut.closed_by_lid(up);
}

SolidMesh make_liquid_body(const Vessel& vessel, double level, const glm::dvec3& up) {
    const Outline body = full_body(vessel);
    const double on_axis =
        up.y * (vessel.inner_bottom + level * (vessel.inner_top - vessel.inner_bottom));
    // 0.1 mm below the height of spilling, so that the level plane always cuts the side.
    const double height = std::min(on_axis, spill_height(body, up) - 1e-4);
    return cut_level(make_lathe_mesh(body, {}), up, height);
}

}  // namespace dapple
