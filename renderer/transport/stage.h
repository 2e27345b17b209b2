// What every walk of one pass reads, and nothing that it writes.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "materials/bsdf.h"
#include "scene/scene.h"
#include "transport/lens.h"
#include "transport/receptor.h"

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
    bool makes_frame = true;  // light walks are joined to the lens

    // Meters: sensors beside the lens. Of each fixture's light walks the first few are seen by
    // them.
    std::span<const Receptor> receptors;
    int meter_walks = 0;                  // per meter
    std::span<const int> seen_by_meters;  // per fixture

    float light_walks_per_meter_walk(size_t fixture) const {
        return static_cast<float>(seen_by_meters[fixture]) / static_cast<float>(meter_walks);
    }
};

}  // namespace dapple
