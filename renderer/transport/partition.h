// Transport without weights: every path from a lamp to a sensor belongs to one technique alone.
//
//   If the first surface after the lamp is rough, or if there is no surface: next-event estimation
//   from there. Else the first surface is smooth glass or a mirror, and
//     if all surfaces are smooth: the sensor walk meets the lamp;
//     if the sensor sees a rough surface first: light walks are joined to the sensor there;
//     if the sensor sees smooth glass or a mirror first: photons are merged with its walk at the
//     first surface that keeps photons.
// Such a partition of paths by family is the older method (Heckbert 1990, "Adaptive radiosity
// textures"; Jensen 1996, "Global illumination using photon maps"). It is simple, so it checks the
// weights; it is slower. It does not find light that smooth glass sends through rough glass and
// that is seen through smooth glass.
//
// Photons are not merged with meter walks. Light that reaches a receptor through smooth glass falls
// on it. If the receptor is a point, its walks meet the lamp instead.
#pragma once

#include "transport/walk.h"

namespace dapple {

// Whether a light walk's vertices are joined to sensors and kept as photons.
inline bool uses_light_walk(const Stage& stage, const Walk& light) {
    return !stage.partition || light.history.began_smooth();
}

// Whether a sensor walk counts the light of a lamp that it meets.
inline bool counts_lamp(const Stage& stage, bool from_lens, bool from_point, const Walk& walk) {
    if (!stage.partition) return true;
    if (from_lens) return walk.history.only_smooth();
    return from_point && walk.history.began_smooth() && walk.history.ended_smooth();
}

// The same for a sensor walk that was scattered by haze (transport/haze/haze_leg.h).
inline bool counts_lamp_after_haze(const Stage& stage, const Walk& walk, size_t fixture) {
    if (walk.history.ended_in_haze()) {
        return !stage.partition && is_wide(stage.emitters[fixture]);
    }
    if (walk.history.ended_smooth()) return !stage.gathers_beams_of(fixture);
    return !stage.partition;
}

// Whether a light walk counts where it falls on a receptor.
inline bool counts_fallen(const Stage& stage, const Walk& light) {
    return !stage.partition || (light.history.began_smooth() && light.history.ended_smooth());
}

}  // namespace dapple
