// Adds the ghosts of the lamps that the lens sees.
#pragma once

#include "film/light_group.h"
#include "glare/lens_lights.h"
#include "glare/light_planes.h"
#include "lenses/hood.h"
#include "scene/glare_report.h"

namespace dapple {

struct LensAndLights {
    const Setup& setup;
    const RealLens& lens;
    Hood hood;
    const std::vector<LensLight>& lights;
    double white = 0;  // cd/m²
};

// Adds to the layers of the lamps' light groups. Returns each light's ghosts, brightest first.
std::vector<std::vector<Ghost>> add_ghosts(const LensAndLights& with,
                                           std::vector<XyzPlane>& layers);

// The place of a light in the frame of the lens, mm from its first vertex, z along the light.
LensVec place_at_lens(const RealLens& lens, const LensLight& light);

}  // namespace dapple
