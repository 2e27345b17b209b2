// A light walk's rays through haze, kept as beams.
#pragma once

#include "transport/haze/beam.h"
#include "transport/light_at_meters.h"
#include "transport/photon_differential.h"

namespace dapple {

// Whether the walk's next ray is left in the haze as a beam: after a mirror or smooth glass.
bool leaves_beam(const Stage& stage, const LightWalkStart& start, const Walk& walk);

// A ray of a light walk.
struct WalkRay {
    const Walk& before;  // the walk before the ray was traced
    float length = 0;    // m
    // How its start moves with the wavelength coordinate (PhotonDifferential::dispersion), and what
    // is known at its end; nullptr: there is no end.
    Vec3 dispersed_before{0};
    const PhotonDifferential* after = nullptr;
};
// If dispersive glass has parted the wavelengths, but not far, each part of the spectrum is a beam
// of its own: both ends move by (c - c of the hero) dP/dc.                                   (E101)
// The walk has traced one wavelength alone; a single beam of it would be a coloured streak.
void leave_beam(const Stage& stage,
                const LightWalkStart& start,
                const WalkRay& ray,
                BeamList& beams);

}  // namespace dapple
