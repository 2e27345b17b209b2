// The windows through which a lamp's light enters glass objects (fixtures/aim.h), with the flux
// through each of their cells. All rays are fixed, so every process computes the same numbers.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "render/prepare/aim_probes.h"
#include "scene/scene.h"

namespace dapple {

struct GlassWindows {
    std::vector<AimWindow> windows;  // of the objects that the light enters
    std::vector<double> cells;       // window by window: lm through each cell, blurred
    double lumens = 0;               // through all cells
};

GlassWindows find_glass_windows(const Scene& scene, const World& world, const Emitter& emitter);

// The two steps of find_glass_windows. `kept`: probes of the same lamp in an earlier frame, used
// again for glass with the same bounds; nullptr: none.
std::vector<ProbedWindow> probe_glass(const Scene& scene,
                                      const World& world,
                                      const Emitter& emitter,
                                      const LampProbes* kept,
                                      bool is_quick);
GlassWindows windows_with_light(const std::vector<ProbedWindow>& probed);

// The mean over each cell of each window and the cells around it.
std::vector<double> blur_cells(const std::vector<double>& cells);

}  // namespace dapple
