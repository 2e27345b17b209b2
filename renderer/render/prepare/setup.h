// The data that all passes of one scene share. It is made once, and passes do not change it.
#pragma once

#include <optional>
#include <vector>

#include "render/film_sink.h"
#include "render/prepare/aim_probes.h"
#include "transport/stage.h"

namespace dapple {

struct Setup {
    // `aims`: aims part of the light walks at the glass in their beam (aim_emitters.h), with what
    // is kept of an earlier frame. `dark`: by fixture, those that send out no light; empty: none.
    Setup(const Scene& scene,
          const World& world,
          bool aims = true,
          const KeptLamps& kept = {},
          const std::vector<bool>& dark = {});

    // The data that the walks of one pass read.
    Stage stage(const PassMaterials& pass_materials,
                PassWalks walks,
                uint64_t seed,
                uint32_t pass) const;

    const Scene& scene;
    const World& world;
    Lens lens;
    SceneMaterials materials;
    FixtureGroups groups;
    std::vector<Emitter> emitters;
    std::vector<Receptor> receptors;
    StartMedia start;
    std::vector<LampProbes> probes;  // by fixture
    LitSheets sheets;
    std::optional<HazeMedium> haze;  // nothing: clear air
    HazeAids haze_aids;
    int max_bounces = 128;
    bool makes_frame = true;
    bool partition = false;
};

// The numbers of a pass without light walks and meter walks.
PassWalks no_light_walks(const Setup& setup);

// Light walks of each fixture; `walks` is the number for all fixtures together. If no beam meets
// glass, only `share_without_glass` of them is used. `is_quick`: see walk_budget.h.
std::vector<int> light_walks_of_pass(const Setup& setup,
                                     double walks,
                                     double share_without_glass,
                                     bool is_quick = false);

// Luminance of white at the camera's setting, cd/m² (E149).
double white_of(const Camera& camera);

// The unit of film sums: 2^-bits of the white luminance, rounded down to a power of two, cd/m²
// (E110).
double sum_quantum(const Camera& camera, int bits);

}  // namespace dapple
