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
    MaterialId current(const Scene& scene) const {
        MaterialId best = kNoMaterial;
        int best_priority = 0;
        for (int i = 0; i < count_; ++i) {
            const MaterialId id = inside_[static_cast<size_t>(i)];
            const int priority = scene.materials[static_cast<size_t>(id)].priority;
            const bool wins = priority > best_priority || (priority == best_priority && id < best);
            if (best == kNoMaterial || wins) {
                best = id;
                best_priority = priority;
            }
        }
        return best;
    }

    void enter(MaterialId id) {
        if (count_ < kDepth) inside_[static_cast<size_t>(count_++)] = id;
    }

    // Leaving a solid that the walk never entered changes nothing.
    void leave(MaterialId id) {
        for (int i = count_ - 1; i >= 0; --i) {
            if (inside_[static_cast<size_t>(i)] != id) continue;
            inside_[static_cast<size_t>(i)] = inside_[static_cast<size_t>(--count_)];
            return;
        }
    }

    void cross(MaterialId id, bool entering) {
        if (entering) {
            enter(id);
        } else {
            leave(id);
        }
    }

    bool empty() const { return count_ == 0; }

  private:
    std::array<MaterialId, kDepth> inside_{};
    int count_ = 0;
};

}  // namespace dapple
