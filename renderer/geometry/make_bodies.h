// Makes bodies of meshes and of lamps' faces, and adds them to the kernels' scenes.
//
// In a world that changes, what a mesh became before stays if the mesh is the same and comes at the
// same place of every array. So while one glass moves, the other triangles are not laid out again.
// Where the sizes of a mesh change, all meshes after it are laid out anew.
#pragma once

#include "geometry/bodies.h"
#include "geometry/kernel_scenes.h"

namespace dapple {

class BodyMaker {
  public:
    // `before`: the bodies of the world as it was. Both arguments must outlive this.
    BodyMaker(const Scene& scene, KernelScenes& kernels, Bodies before);

    // What is added from now on belongs to this thing.
    void begin_thing(ThingKind kind, size_t index);
    MeshBounds add_mesh(const Mesh& mesh);
    void add_lamp(int index);

    // All bodies, with the bounds of their meshes. The rest of the bounds is the caller's.
    Bodies take();

  private:
    using Kinds = uint8_t;
    bool has(const Mesh& mesh, size_t triangle, Kinds kind) const {
        const MaterialId id = mesh.materials[triangle];
        return id != kNoMaterial && (kinds_[static_cast<size_t>(id)] & kind) != 0;
    }
    // What the mesh became before, if that can stay; nullptr: it cannot.
    MadeMesh* made_before(const Mesh& mesh);
    void keep(const MadeMesh& made);
    void note_changes();
    MeshBounds bounds_of(const Mesh& mesh) const;
    void add_triangles(const Mesh& mesh, const std::vector<uint32_t>& picked, bool see_through);
    void add_corners(const Mesh& mesh, const std::vector<uint32_t>& picked);
    void add_sheet(const SheetTriangle& sheet, size_t facet);
    void add_facets(const Mesh& mesh, const std::vector<uint32_t>& picked);

    const Scene& scene_;
    KernelScenes& kernels_;
    Bodies before_;
    std::vector<Kinds> kinds_;  // by material
    bool same_kinds_ = false;   // as before
    size_t next_mesh_ = 0;
    // Arrays that are filled in place may have more elements than these, left from before.
    BodyCounts counts_;
    Bodies bodies_;
};

}  // namespace dapple
