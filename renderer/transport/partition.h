// Transport without weights: every path from lamp to sensor belongs to one technique alone.
//
//   The surface next to the lamp is not smooth (or there is none): the lamp is asked for its direct
//   light from there. Else the path goes lamp, smooth glass or mirrors, …, and
//     all of it is smooth: the sensor walk meets the lamp;
//     the sensor sees a surface that is not smooth: light walks are joined to it there;
//     the sensor looks through smooth glass or into a mirror: photons are merged with its walk at
//     the first surface that keeps photons.
// Such a partition of paths by family is the older way (Heckbert 1990, "Adaptive radiosity
// textures"; Jensen 1996, "Global illumination using photon maps"). It is slower than weights where
// two techniques could share, and it is simple: the weights are checked by it. What it cannot find:
// light that smooth glass sends through rough glass, seen through smooth glass.
//
// A meter's receptor takes no photons: what comes to it through smooth glass falls on it, or, if it
// is a point, is met by its walks.
#pragma once

#include "transport/walk.h"

namespace dapple {

// Whether a light walk's vertex is joined to sensors, or kept as a photon.
inline bool uses_light_walk(const Stage& stage, const Walk& light) {
    return !stage.partition || light.history.began_smooth();
}

// Whether a sensor walk counts the lamp it has met.
inline bool counts_lamp(const Stage& stage, bool from_lens, bool from_point, const Walk& walk) {
    if (!stage.partition) return true;
    if (from_lens) return walk.history.only_smooth();
    return from_point && walk.history.began_smooth() && walk.history.ended_smooth();
}

// Whether what a light walk carries counts where it falls on a receptor.
inline bool counts_fallen(const Stage& stage, const Walk& light) {
    return !stage.partition || (light.history.began_smooth() && light.history.ended_smooth());
}

}  // namespace dapple
