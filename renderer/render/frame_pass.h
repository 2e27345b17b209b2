// One pass of a frame: everything that is its own.
#pragma once

#include "render/film_sink.h"
#include "render/prepare/frame_setup.h"

namespace dapple {

// It follows from the frame's setup and the number of the pass alone.
struct FramePass {
    // Pass number `pass`, from 0. `frame` must outlive it.
    FramePass(const FrameSetup& frame, uint32_t pass);
    FramePass(const FramePass&) = delete;  // the stage points into it
    FramePass& operator=(const FramePass&) = delete;

    Wavelengths wavelengths;
    PassMaterials materials;
    float merge_radius;  // m; 0: nothing is merged
    SplatRadii splat_radii;
    Stage stage;  // its photons are set once the light walks are traced
};

}  // namespace dapple
