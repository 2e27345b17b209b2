// Camera walks: from a pixel into the room.
#pragma once

#include <span>

#include "transport/light_walk.h"
#include "transport/sensor_walk.h"

namespace dapple {

// One of a pixel's walks.
struct PixelWalk {
    uint32_t number = 0;  // over all passes
    int splits = 1;       // how often the walk splits in two, at most
};

// The hero of a pixel's walk, as its place among the wavelengths of the pass, from the shortest.
// Successive walks spread their heroes over the spectrum, in one pass and from pass to pass, and so
// do neighbours: any 3 × 3 pixels have all eight. Neighbours that lack the same colours would show
// as stripes in glass.
int hero_place(int x, int y, uint32_t number);

// Where a pixel's walk starts, spread evenly over the pixel.
LensStart start_of_camera_walk(const Stage& stage, int x, int y, PixelWalk pixel_walk);

// Traces one camera walk of pixel (x, y) in the stage's pass. Adds to `light` the pixel's luminance
// in cd/m².
void trace_camera_walk(const Stage& stage,
                       int x,
                       int y,
                       PixelWalk pixel_walk,
                       const SensorLight& light,
                       WalkCounts& counts);

// The same for one of the extra walks of a glint (render/glint_map.h), which starts at `start`. The
// glint is number `glint` of its pixel.
void trace_glint_walk(const Stage& stage,
                      const LensStart& start,
                      uint64_t glint,
                      PixelWalk pixel_walk,
                      const SensorLight& light,
                      WalkCounts& counts);

}  // namespace dapple
