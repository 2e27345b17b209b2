// What every walk of one pass reads, and nothing that it writes.
#pragma once

#include <cstdint>
#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "materials/bsdf.h"
#include "scene/scene.h"
#include "transport/lens.h"

namespace dapple {

struct Stage {
    const Scene& scene;
    const World& world;
    const Lens& lens;
    const std::vector<Emitter>& emitters;
    const std::vector<int>& light_walks;  // per fixture, in one pass; 0 switches the technique off
    const PassMaterials& materials;
    uint64_t seed = 1;
    uint32_t pass = 0;
    int max_bounces = 64;
};

}  // namespace dapple
