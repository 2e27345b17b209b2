// The meshes of a thing of the set, where it stands or moved away from there.
#pragma once

#include <vector>

#include "geometry/thing.h"
#include "scene/scene.h"

namespace dapple {

// A fixture or a board keeps its aim when it moves. A fixture takes its stand and everything that
// is clipped to it along.
class ThingMeshes {
  public:
    ThingMeshes(const Scene& scene, const Thing& thing);

    std::vector<Mesh> moved_by(const Vec3& by) const;
    // The fixture that moves with the thing, and that the thing may be; nullptr if there is none.
    const Fixture* fixture() const { return fixture_; }

  private:
    std::vector<Mesh> fixture_moved_by(const Vec3& by) const;

    const Scene& scene_;
    const Fixture* fixture_ = nullptr;
    const Board* board_ = nullptr;
    std::vector<Mesh> glass_;
};

}  // namespace dapple
