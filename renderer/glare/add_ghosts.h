// Adds the ghosts of the lamps that the lens sees.
#pragma once

#include <map>

#include "film/light_group.h"
#include "glare/lens_lights.h"
#include "glare/light_planes.h"
#include "lenses/ghost_canvas.h"
#include "lenses/hood.h"
#include "scene/glare_report.h"

namespace dapple {

struct LensAndLights {
    const Camera& camera;
    const FixtureGroups& groups;
    const RealLens& lens;
    const Hood& hood;
    const std::vector<LensLight>& lights;
};

// The ghosts of all lamps, drawn once for frames of any size.
struct DrawnGhosts {
    PixelGrid grid;                            // of the canvases
    std::map<int, GhostCanvas> by_fixture;     // cd/m²
    std::vector<std::vector<Ghost>> by_light;  // brightest first; px of `grid`
};

DrawnGhosts draw_ghosts(const LensAndLights& with);

// Adds them to the layers of the lamps' light groups, at the camera's size.
void add_ghosts(const DrawnGhosts& ghosts,
                const FixtureGroups& groups,
                const Camera& camera,
                GlareLayers which,
                std::vector<XyzPlane>& layers);

// The place of a light in the frame of the lens, mm from its first vertex, z along the light.
LensVec place_at_lens(const RealLens& lens, const LensLight& light);

}  // namespace dapple
