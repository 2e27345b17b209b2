// What all passes of one scene share, made once.
#pragma once

#include <vector>

#include "render/film_sink.h"
#include "transport/stage.h"

namespace dapple {

struct Setup {
    // `aims`: light walks are aimed at the glass in their beam, in part (aim_emitters.h).
    Setup(const Scene& scene, const World& world, bool aims = true);

    // What the walks of one pass read. `light_walks`, `joined_to_meters` and `meter_walks` are set
    // before.
    Stage stage(const PassMaterials& pass_materials, uint64_t seed, uint32_t pass) const;

    const Scene& scene;
    const World& world;
    Lens lens;
    SceneMaterials materials;
    FixtureGroups groups;
    std::vector<Emitter> emitters;
    std::vector<Receptor> receptors;
    StartMedia start;
    LitSheets sheets;
    std::vector<int> light_walks;       // per fixture and pass
    std::vector<int> joined_to_meters;  // of them
    int meter_walks = 0;                // per meter and pass
    int max_bounces = 128;
    bool makes_frame = true;
    bool partition = false;
};

// Sums count in 2^-bits of the white luminance, rounded down to a power of two.
double sum_quantum(const Camera& camera, int bits);

// Light walks of each fixture, of `walks` for all; where no beam meets glass a share of them only.
std::vector<int> light_walks_of_pass(const Setup& setup, double walks, double share_without_glass);

}  // namespace dapple
