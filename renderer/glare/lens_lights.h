// The lamps that the front element sees: straight, through panes and smooth glass, and in mirrors.
//
// Straight: the lamp's face in up to 16 parts. Otherwise rays from the lens, half a degree apart
// over all that is in front of it, are followed over smooth surfaces (smooth_way.h); where one
// comes near a lamp it is turned until it meets the lamp's middle. The lamp then gives the lens
//   E = T I / |det J|,   J = ∂(place beside the lamp)/∂(direction at the lens), m²/sr        (E127)
// with what passes, T, and the lamp's intensity towards the ray, I (conservation of étendue). In
// the open and in flat mirrors |det J| is the square of the distance. Wet and varnished surfaces
// are mirrors with Fresnel's reflectance; what a nearly smooth gloss shows is summed up
// (gloss_image.h). A window's face is taken in parts. What is seen by way of cloth or of rougher
// surfaces is not followed: it is in the film and in the veil.
#pragma once

#include <vector>

#include "glare/smooth_way.h"

namespace dapple {

struct LensLight {
    int fixture = 0;
    SeenWay way = SeenWay::kDirect;
    Vec3 place{0};                    // m, as seen: right, up, forwards from the entrance pupil
    double lux = 0;                   // facing it, without `passed`
    Spectrum passed{1.0F};            // at the eight bands
    double radius = 0;                // rad, of what is seen
    MaterialId mirror = kNoMaterial;  // kInMirror: the first surface that reflects it
    bool in_film = false;             // walks meet what is seen: it is not an image of a point

    double angle() const {
        return std::atan2(std::hypot(static_cast<double>(place.x), static_cast<double>(place.y)),
                          static_cast<double>(place.z));
    }
};

std::vector<LensLight> find_lens_lights(const Setup& setup);

}  // namespace dapple
