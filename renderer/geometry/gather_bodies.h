// Makes every mesh of the scene and collects its triangles: the room's meshes, glassware, boards,
// columns, lay figures, and the bodies and lamp faces of fixtures, in this order.
#pragma once

#include "geometry/bodies.h"
#include "geometry/kernel_scenes.h"

namespace dapple {

// Also adds each body to `kernels`. `before`: the bodies of a world that changes (make_bodies.h).
Bodies gather_bodies(const Scene& scene, KernelScenes& kernels, Bodies before = {});

}  // namespace dapple
