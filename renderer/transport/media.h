// The solids and liquids that a walk is inside of.
//
// Where they overlap, the one with the highest priority fills the space (Schmidt and Budge 2002):
// a liquid drawn into the wall of its glass leaves no gap, and its surface inside the wall is no
// boundary at all. Of equals the one named first in the scene fills it.
#pragma once

#include <array>

#include "scene/scene.h"

namespace dapple {

// What fills the solid that this material bounds.
inline MaterialId medium_of(const Scene& scene, MaterialId id) {
    const MaterialId medium = scene.materials[static_cast<size_t>(id)].medium;
    return medium == kNoMaterial ? id : medium;
}

class MediumStack {
  public:
    static constexpr int kDepth = 6;

    // The material whose medium fills the space here; kNoMaterial is air.
    MaterialId current() const { return count_ == 0 ? kNoMaterial : inside_[0]; }

    // The same once this solid is entered or left.
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
        for (; at > 0 && wins(scene, id, here(at - 1)); --at) here(at) = here(at - 1);
        here(at) = id;
    }

    // Leaving a solid that the walk never entered changes nothing.
    void leave(MaterialId id) {
        int at = 0;
        while (at < count_ && here(at) != id) ++at;
        if (at == count_) return;
        for (--count_; at < count_; ++at) here(at) = here(at + 1);
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
        const int of_a = scene.materials[static_cast<size_t>(a)].priority;
        const int of_b = scene.materials[static_cast<size_t>(b)].priority;
        return of_a > of_b || (of_a == of_b && a < b);
    }
    MaterialId& here(int i) { return inside_[static_cast<size_t>(i)]; }

    std::array<MaterialId, kDepth> inside_{};  // the one that fills the space first
    int count_ = 0;
};

}  // namespace dapple
