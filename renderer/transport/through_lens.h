// What a lens of glass does to the light of a walk (lenses/drawn_lens.h).
//
// If the lens parts the colours, each walk goes through it with its hero wavelength and keeps only
// that one, with eight times its weight, as at dispersive glass (E42).
#pragma once

#include "lenses/lens_wavelengths.h"
#include "transport/stage.h"
#include "transport/walk.h"

namespace dapple {

// The wavelength whose ray a walk takes through the lens, nm.
inline float lens_wavelength(const Stage& stage, int hero) {
    return stage.lens.splits_colours() ? stage.wavelength_coordinate.nm[hero] : 550.0F;
}

// Where a point of the aperture, drawn at random, sees the point with the walk's light. False as
// for Lens::project.
inline bool project_to_lens(const Stage& stage,
                            const Walk& walk,
                            const Point& point,
                            RandomStream& random,
                            Lens::Projection& seen) {
    const float u = random.next();
    const float v = random.next();
    return stage.lens.project(point, u, v, seen, lens_wavelength(stage, walk.light.hero));
}

// By what the lens multiplies the walk's light; `passed` of Lens::RaySample.
inline Spectrum through_lens(const Stage& stage,
                             const Spectrum& passed,
                             const CarriedLight& light) {
    const Spectrum all = between_bands(passed, stage.wavelength_coordinate.nm);
    if (!stage.lens.splits_colours() || light.monochromatic) return all;
    Spectrum hero(0.0F);
    hero[light.hero] = kSpectrumSize * all[light.hero];
    return hero;
}

}  // namespace dapple
