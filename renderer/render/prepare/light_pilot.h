// Pilot light walks: where the light of each fixture goes. They are the same for every seed and
// pass.
#pragma once

#include <vector>

#include "render/prepare/setup.h"
#include "transport/stored_vertices.h"

namespace dapple {

struct LightPilot {
    StoredVertexList vertices;  // on rough surfaces, of all fixtures
    // By fixture: light walks of a usual pass over those of the pilot.
    std::vector<double> usual_walks_per_walk;
};

// `light_walks`: of each fixture in a usual pass.
LightPilot trace_light_pilot(const Setup& setup, const std::vector<int>& light_walks);

}  // namespace dapple
