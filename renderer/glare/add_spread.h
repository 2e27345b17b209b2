// Spreads the light of the film: stars around what is bright, and the veil over all of it.
//
// Stars are made of the pixels that are sixteen times as bright as white or brighter. The ghosts of
// these pixels are drawn, so their veil has no ghosts in it. The ghosts of all other pixels are as
// wide as a veil and are part of it. What lies beyond the picture is not known: for the veil it is
// taken to be as bright as the picture's edge, and the lamps there that the front element sees are
// added.
#pragma once

#include "glare/add_ghosts.h"

namespace dapple {

// Light that counts as a lamp's, as a multiple of white.
inline constexpr double kBrightOfWhite = 16;

// Adds the change to `layers`; `film` is the light of each group, in cd/m².
void add_stars(const RealLens& lens,
               const Camera& camera,
               const std::vector<LightGroup>& groups,
               const std::vector<XyzPlane>& film,
               std::vector<XyzPlane>& layers);

struct VeilLights {
    double scattered = 0;                            // the part of all light
    double of_lamps = 0;                             // the part of lamps' light
    const std::vector<LensLight>* lights = nullptr;  // of those beyond the picture
    const FixtureGroups* groups = nullptr;
    const Hood* hood = nullptr;  // nullptr: no lens of glass, all light gets in
};
void add_veil(const Camera& camera,
              const VeilLights& with,
              const std::vector<XyzPlane>& film,
              std::vector<XyzPlane>& layers);

// Where the light is in the picture, px; nothing if it is not in it.
std::optional<DVec2> place_in_picture(const Camera& camera, const LensLight& light);

}  // namespace dapple
