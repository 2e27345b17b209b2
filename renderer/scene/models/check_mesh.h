// Checks whether a mesh is the boundary of a solid, and which side is outside.
//
// Corners at exactly the same place are one vertex, even if their uvs or normals differ. A boundary
// is closed if the triangles at every edge pass it as often in one direction as in the other.
// Signed volume (divergence theorem): V = Σ a·(b × c) / 6, positive if normals point outward.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "scene/scene.h"

namespace dapple {

struct EdgeReport {
    int64_t open = 0;     // edges of a single triangle
    int64_t twisted = 0;  // edges whose triangles face different ways
    Point first{0};       // middle of the first open or twisted edge
};

EdgeReport check_edges(const Mesh& mesh);

// Why the mesh cannot be glass: "has 12 open edges, the first near (x, y, z) m; glass must be
// closed".
// "" if it is closed and all faces turn the same way.
std::string problem_as_glass(const Mesh& mesh);

double signed_volume(const Mesh& mesh);  // m³

// A connected part of a mesh.
struct Shell {
    std::vector<uint32_t> triangles;
    Bounds bounds;
    double volume = 0;  // m³, signed
};

std::vector<Shell> find_shells(const Mesh& mesh);
bool is_closed(const Mesh& mesh, const Shell& shell);
// Whether a point is inside a closed shell, whose normals may point either way.
bool contains(const Mesh& mesh, const Shell& shell, const Point& p);

// Turns each connected part of a closed mesh so that its normals point out of the solid: outward
// for an outer shell, inward for a shell inside it, and so on alternately.
void orient_outward(Mesh& mesh);

}  // namespace dapple
