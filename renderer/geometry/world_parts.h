// What a World consists of. Only the files that implement World include this header.
#pragma once

#include "geometry/gather_bodies.h"
#include "geometry/kernel_scenes.h"
#include "geometry/world.h"

namespace dapple {

struct World::Parts {
    Parts(const Scene& scene, WorldUse use) : kernels(use), bodies(gather_bodies(scene, kernels)) {
        kernels.commit();
    }

    KernelScenes kernels;
    Bodies bodies;
    RayLog* log = nullptr;
};

}  // namespace dapple
