// Is a mesh the boundary of a solid, and which side is outside?
//
// Corners at exactly the same place count as one vertex, whatever their uv or normal. A boundary
// is closed when every edge is passed as often one way as the other by the triangles beside it.
// Signed volume (divergence theorem): V = Σ a·(b × c) / 6, positive when normals point outward.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "scene/scene.h"

namespace dapple {

struct EdgeReport {
    int64_t open = 0;     // edges of a single triangle
    int64_t twisted = 0;  // edges whose triangles do not face the same way
    Point first{0};       // middle of the first of these
};

EdgeReport check_edges(const Mesh& mesh);

// "" for a closed mesh with edges in order, else what is wrong: "has 12 open edges, the first near
// (x, y, z); glass must be closed".
std::string trouble_as_glass(const Mesh& mesh);

double signed_volume(const Mesh& mesh);  // m³

// A connected part of a mesh.
struct Shell {
    std::vector<uint32_t> triangles;
    Bounds bounds;
    double volume = 0;  // m³, signed
};

std::vector<Shell> find_shells(const Mesh& mesh);
bool is_closed(const Mesh& mesh, const Shell& shell);
// Whether a point lies inside a closed shell, whichever way that faces.
bool contains(const Mesh& mesh, const Shell& shell, const Point& p);

// Turns each connected part of a closed mesh so that its normals point out of the solid: away from
// the inside for an outer shell, into the hollow for a shell inside another, and so on by turns.
void orient_outward(Mesh& mesh);

}  // namespace dapple
