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

using BandColours = std::array<Xyz, kSpectrumSize>;  // lens_wavelengths.h; of any strength

// Adds the change to `layers`; `film` is the light of each layer, in cd/m², `colours` its colours.
void add_stars(const RealLens& lens,
               const Camera& camera,
               const std::vector<BandColours>& colours,
               const std::vector<XyzPlane>& film,
               std::vector<XyzPlane>& layers);

// A lamp that is not in the film.
struct VeilLamp {
    const LensLight* light = nullptr;
    double lit = 1;  // the share of the front element that it lights
    Xyz per_lux{0};  // the colour of one layer's part of it
};

struct VeilLights {
    double scattered = 0;                           // the part of all light
    double of_lamps = 0;                            // the part of lamps' light
    std::vector<std::vector<VeilLamp>> lamps = {};  // by layer; empty: none
};
void add_veil(const Camera& camera,
              const VeilLights& with,
              std::vector<XyzPlane> film,
              std::vector<XyzPlane>& layers);

// Where the light is in the picture, px; nothing if it is not in it.
std::optional<DVec2> place_in_picture(const Camera& camera, const LensLight& light);

}  // namespace dapple
