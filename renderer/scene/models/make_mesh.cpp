#include "scene/models/make_mesh.h"

#include <array>
#include <bit>
#include <numeric>

#include "base/large_memory.h"
#include "base/random.h"

namespace dapple {

namespace {

// Where a corner's normal comes from.
enum class NormalSource : uint32_t { kNone, kGiven, kGroup, kFace };

struct VertexKey {
    int32_t position = -1;
    int32_t uv = -1;
    NormalSource source = NormalSource::kNone;
    int32_t normal = -1;  // index of the normal, smoothing group or face

    bool operator==(const VertexKey&) const = default;
};

uint64_t hash(const VertexKey& key) {
    const auto pair = [](int32_t a, int32_t b) {
        return (static_cast<uint64_t>(static_cast<uint32_t>(a)) << 32U) | static_cast<uint32_t>(b);
    };
    return mix_bits(pair(key.position, key.uv), pair(static_cast<int32_t>(key.source), key.normal));
}

// Numbers keys in the order of their first use. Open addressing: a million corners take 0.1 s; a
// node-based map takes ten times as long.
class VertexNumbers {
  public:
    explicit VertexNumbers(size_t corners) {
        const size_t slots = std::bit_ceil(2 * corners + 1);
        reserve_large(slots_, slots);
        slots_.assign(slots, kFree);
        mask_ = slots - 1;
    }

    uint32_t number(const VertexKey& key) {
        size_t slot = hash(key) & mask_;
        while (slots_[slot] != kFree) {
            if (keys_[slots_[slot]] == key) return slots_[slot];
            slot = (slot + 1) & mask_;
        }
        slots_[slot] = static_cast<uint32_t>(keys_.size());
        keys_.push_back(key);
        return slots_[slot];
    }
    const std::vector<VertexKey>& keys() const { return keys_; }

  private:
    static constexpr uint32_t kFree = ~0U;
    std::vector<uint32_t> slots_;
    size_t mask_ = 0;
    std::vector<VertexKey> keys_;
};

Vec3 given_normal(const ModelDescription& model, const ModelAxes& axes, const ModelCorner& corner) {
    return corner.normal < 0 ? Vec3(0)
                             : axes.turned(model.normals[static_cast<size_t>(corner.normal)]);
}

bool has_length(const Vec3& v) {
    return glm::dot(v, v) > 0 && std::isfinite(glm::dot(v, v));
}

VertexKey vertex_key(const ModelDescription& model,
                     const ModelAxes& axes,
                     int32_t index,
                     const ModelCorner& corner,
                     bool with_normals) {
    VertexKey key{corner.position, corner.uv, NormalSource::kNone, -1};
    if (!with_normals) return key;
    const uint32_t group = model.triangles[static_cast<size_t>(index)].smoothing_group;
    if (has_length(given_normal(model, axes, corner))) {
        key.source = NormalSource::kGiven;
        key.normal = corner.normal;
    } else if (group != 0) {
        key.source = NormalSource::kGroup;
        key.normal = static_cast<int32_t>(group);
    } else {
        key.source = NormalSource::kFace;
        key.normal = index;
    }
    return key;
}

class MeshMaker {
  public:
    MeshMaker(const ModelDescription& model, const ModelAxes& axes, size_t triangles)
        : model_(model), axes_(axes), numbers_(3 * triangles) {
        reserve_large(mesh_.triangles, triangles);
        reserve_large(mesh_.materials, triangles);
        reserve_large(sums_, model.positions.size());
    }

    Mesh make(const std::vector<int32_t>& triangles, const std::vector<MaterialId>& materials) {
        find_kinds(triangles);
        for (const int32_t index : triangles) add_triangle(index, materials);
        finish_vertices();
        return std::move(mesh_);
    }

  private:
    void find_kinds(const std::vector<int32_t>& triangles) {
        for (const int32_t index : triangles) {
            const ModelTriangle& triangle = model_.triangles[static_cast<size_t>(index)];
            with_normals_ |= triangle.smoothing_group != 0;
            with_colours_ |=
                triangle.material >= 0 && !model_.colours.empty() &&
                model_.materials[static_cast<size_t>(triangle.material)].vertex_colours;
            for (const ModelCorner& corner : triangle.corners) {
                with_normals_ |= corner.normal >= 0;
                with_uvs_ |= corner.uv >= 0;
            }
        }
    }

    glm::dvec3 position(const ModelCorner& corner) const {
        return glm::dvec3(axes_.position(model_.positions[static_cast<size_t>(corner.position)]));
    }

    void add_triangle(int32_t index, const std::vector<MaterialId>& materials) {
        const ModelTriangle& triangle = model_.triangles[static_cast<size_t>(index)];
        const auto& corners = triangle.corners;
        const glm::dvec3 a = position(corners[0]);
        const glm::dvec3 b = position(corners[1]);
        const glm::dvec3 c = position(corners[2]);
        if (a == b || b == c || c == a) return;
        const glm::dvec3 area = 0.5 * glm::cross(b - a, c - a);
        glm::uvec3 vertices(0);
        for (int i = 0; i < 3; ++i) {
            vertices[i] = numbers_.number(
                vertex_key(model_, axes_, index, corners[static_cast<size_t>(i)], with_normals_));
            if (vertices[i] == sums_.size()) sums_.emplace_back(0);
            sums_[vertices[i]] += area;
        }
        mesh_.triangles.push_back(vertices);
        const size_t material =
            triangle.material < 0 ? materials.size() - 1 : static_cast<size_t>(triangle.material);
        mesh_.materials.push_back(materials[material]);
    }

    void finish_vertices() {
        const size_t vertices = numbers_.keys().size();
        reserve_large(mesh_.positions, vertices);
        if (with_uvs_) reserve_large(mesh_.uvs, vertices);
        if (with_colours_) reserve_large(mesh_.colours, vertices);
        for (const VertexKey& key : numbers_.keys()) {
            const auto at = static_cast<size_t>(key.position);
            mesh_.positions.push_back(axes_.position(model_.positions[at]));
            if (with_colours_) {
                const std::array<float, 3>& colour = model_.colours[at];
                mesh_.colours.emplace_back(colour[0], colour[1], colour[2]);
            }
            if (!with_uvs_) continue;
            const auto uv = static_cast<size_t>(key.uv);
            mesh_.uvs.push_back(key.uv < 0 ? Vec2(0) : Vec2(model_.uvs[uv][0], model_.uvs[uv][1]));
        }
        if (with_normals_) make_normals();
    }

    void make_normals() {
        const std::vector<VertexKey>& keys = numbers_.keys();
        reserve_large(mesh_.normals, keys.size());
        join_groups();
        for (size_t i = 0; i < keys.size(); ++i) {
            if (keys[i].source == NormalSource::kGiven) {
                sums_[i] = axes_.turned(model_.normals[static_cast<size_t>(keys[i].normal)]);
            }
            // If the faces cancel out, any normal is as good.
            const double length = glm::length(sums_[i]);
            mesh_.normals.push_back(length > 0 ? Normal(sums_[i] / length) : Normal(0, 1, 0));
        }
    }

    // Adds up the normals of vertices of one smoothing group that a texture's seam has separated.
    void join_groups() {
        const std::vector<VertexKey>& keys = numbers_.keys();
        VertexNumbers groups(keys.size());
        std::vector<glm::dvec3> group_sums;
        std::vector<uint32_t> group_of(keys.size());
        for (size_t i = 0; i < keys.size(); ++i) {
            if (keys[i].source != NormalSource::kGroup) continue;
            group_of[i] =
                groups.number({keys[i].position, -1, NormalSource::kGroup, keys[i].normal});
            group_sums.resize(groups.keys().size(), glm::dvec3(0));
            group_sums[group_of[i]] += sums_[i];
        }
        for (size_t i = 0; i < keys.size(); ++i) {
            if (keys[i].source == NormalSource::kGroup) sums_[i] = group_sums[group_of[i]];
        }
    }

    const ModelDescription& model_;
    const ModelAxes& axes_;
    VertexNumbers numbers_;
    bool with_normals_ = false;
    bool with_uvs_ = false;
    bool with_colours_ = false;
    std::vector<glm::dvec3> sums_;  // area vectors of the faces around each vertex
    Mesh mesh_;
};

}  // namespace

Mesh make_mesh(const ModelDescription& model,
               const std::vector<int32_t>& triangles,
               const ModelAxes& axes,
               const std::vector<MaterialId>& materials) {
    return MeshMaker(model, axes, triangles.size()).make(triangles, materials);
}

std::vector<int32_t> all_triangles(const ModelDescription& model) {
    std::vector<int32_t> triangles(model.triangles.size());
    std::iota(triangles.begin(), triangles.end(), 0);
    return triangles;
}

}  // namespace dapple
