// The memory that a night needs at its peak: one variant is rendered at a time, and its results are
// made of it, so the number of variants does not count.
#pragma once

#include <cstdint>

#include "scene/scene.h"

namespace dapple {

struct NightMemory {
    double fixed_bytes = 0;      // the program, models, textures, what rays meet
    double bytes_per_pixel = 0;  // the film, what pixels see, the walks of a pass, the results
    int width = 0, height = 0;   // px

    double gigabytes() const { return (fixed_bytes + bytes_per_pixel * width * height) / 1e9; }
    // The widest frame of this shape that fits into `gb`; 0: none does.
    int width_that_fits(double gb) const;
};

// `triangles`: of all that rays meet. Measured, not derived: see night_memory.cpp.
NightMemory night_memory(const Scene& scene, int64_t triangles);

// The one that needs more.
NightMemory more_of(const NightMemory& a, const NightMemory& b);

}  // namespace dapple
