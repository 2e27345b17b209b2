// The start of a camera walk of a pilot: through a random place of the pixel and the middle of the
// lens.
#pragma once

#include "transport/walk.h"

namespace dapple {

// `number` chooses the walk's own wavelength.
inline Walk start_pilot_walk(
    const Stage& stage, int x, int y, uint64_t number, RandomStream& random) {
    const float u = random.next();
    const float v = random.next();
    const Vec2 raster(static_cast<float>(x) + u, static_cast<float>(y) + v);
    Walk walk;
    walk.ray = stage.lens.sample_ray(raster, 0.5F, 0.5F).ray;
    walk.media = stage.start.lens;
    walk.light.hero = static_cast<int>(number % kSpectrumSize);
    return walk;
}

}  // namespace dapple
