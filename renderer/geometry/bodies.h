// The scene's bodies and their triangles, as hits look them up.
//
// A body is the face of a lamp, or those triangles of one mesh that are see-through, or those that
// are not. The kernels' scenes give each body the same number as Bodies::list.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/facet.h"
#include "geometry/packed_colour.h"
#include "geometry/thing.h"
#include "geometry/world.h"

namespace dapple {

inline float largest_coordinate_of(const Point& p) {
    return std::max({std::abs(p.x), std::abs(p.y), std::abs(p.z)});
}

struct Body {
    uint32_t first_facet = kNoIndex;   // its triangle 0, in Bodies::facets; kNoIndex: a lamp face
    uint32_t first_uv = kNoIndex;      // first corner of its triangle 0; kNoIndex: no uvs
    uint32_t first_colour = kNoIndex;  // likewise
    int lamp = -1;                     // index of the fixture; -1: not a lamp face
    bool one_material = false;         // all its triangles have `material`
    MaterialId material = kNoMaterial;
    float largest_coordinate = 0;  // m, of its corners
};

// The facets from `first_facet` on belong to `thing`, up to the next entry's first facet.
struct FacetOwner {
    uint32_t first_facet = 0;
    Thing thing;
};

// How many elements an array of Bodies has that grows with each mesh.
struct BodyCounts {
    size_t list = 0, facets = 0, uvs = 0, colours = 0, sheets = 0;
    bool operator==(const BodyCounts&) const = default;
};

// Bounds of a mesh: of all its vertices, and of the triangles that throw light in patterns.
struct MeshBounds {
    Bounds all, breaking;
};

// What a mesh has become, in a world that changes.
struct MadeMesh {
    Mesh mesh;
    BodyCounts first, end;  // before and after it
    MeshBounds bounds;
};

// Where a lamp's face is.
struct LampFacePlace {
    Point position{0};
    Frame frame;
    Vec2 size{0};  // m, of a panel; else the diameter

    Bounds bounds() const {
        const Vec3 reach(glm::length(size));
        return {position - reach, position + reach};
    }
    bool is_same_as(const LampFacePlace& other) const {
        return position == other.position && frame.s == other.frame.s && frame.n == other.frame.n &&
               size == other.size;
    }
};

struct Bodies {
    std::vector<Body> list;
    std::vector<FacetOwner> owners;
    std::vector<Facet> facets;          // grouped by body
    std::vector<int> sheet_of_facet;    // index into `sheets`; -1 or beyond the end: not a sheet
    std::vector<Vec2> uvs;              // three for each facet of a body that has uvs
    std::vector<PackedColour> colours;  // three for each facet of a body that has colours
    std::vector<SheetTriangle> sheets;
    Bounds bounds;
    std::vector<Bounds> broken_beam_bounds;
    std::vector<Bounds> diffuser_bounds;
    // Only in a world that changes, to see what can stay: the meshes in their order, and by
    // material which kind of body a triangle of it belongs to.
    std::vector<MadeMesh> meshes;
    std::vector<uint8_t> material_kinds;
    std::vector<LampFacePlace> lamps;    // by fixture
    std::vector<Bounds> changed_bounds;  // World::changed_bounds()
};

}  // namespace dapple
