// The solids and liquids that contain a walk.
//
// Where they overlap, the one with the highest priority fills the space (Schmidt and Budge 2002).
// Of equal priorities, the material that is first in the scene fills it. The mesh of a liquid can
// therefore extend into the wall of its glass: there is no gap between them, and the liquid's
// surface inside the wall is no boundary.
#pragma once

#include <array>

#include "scene/scene.h"

namespace dapple {

// The medium that fills a solid bounded by this material.
inline MaterialId medium_of(const Scene& scene, MaterialId id) {
    const MaterialId medium = scene.materials[static_cast<size_t>(id)].medium;
    return medium == kNoMaterial ? id : medium;
}

class MediumStack {
  public:
    static constexpr int kDepth = 6;

    // The material whose medium fills the space; kNoMaterial is air.
    MaterialId current() const { return count_ == 0 ? kNoMaterial : inside_[0]; }

    // current() after this solid is entered or left.
    MaterialId current_after(const Scene& scene, MaterialId id, bool entering) const {
        if (entering) {
            const bool stays = count_ == kDepth || (count_ > 0 && !wins(scene, id, inside_[0]));
            return stays ? current() : id;
        }
        if (current() != id) return current();
        return count_ > 1 ? inside_[1] : kNoMaterial;
    }

    void enter(const Scene& scene, MaterialId id) {
        if (count_ == kDepth) return;
        int at = count_++;
        for (; at > 0 && wins(scene, id, slot(at - 1)); --at) slot(at) = slot(at - 1);
        slot(at) = id;
    }

    // Leaving a solid that the walk never entered changes nothing.
    void leave(MaterialId id) {
        int at = 0;
        while (at < count_ && slot(at) != id) ++at;
        if (at == count_) return;
        for (--count_; at < count_; ++at) slot(at) = slot(at + 1);
    }

    void cross(const Scene& scene, MaterialId id, bool entering) {
        if (entering) {
            enter(scene, id);
        } else {
            leave(id);
        }
    }

    bool empty() const { return count_ == 0; }

  private:
    static bool wins(const Scene& scene, MaterialId a, MaterialId b) {
        const int priority_a = scene.materials[static_cast<size_t>(a)].priority;
        const int priority_b = scene.materials[static_cast<size_t>(b)].priority;
        return priority_a > priority_b || (priority_a == priority_b && a < b);
    }
    MaterialId& slot(int i) { return inside_[static_cast<size_t>(i)]; }

    std::array<MaterialId, kDepth> inside_{};  // sorted; the first one fills the space
    int count_ = 0;
};

}  // namespace dapple
