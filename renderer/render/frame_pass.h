// The data of one pass of a frame.
#pragma once

#include "render/film_sink.h"
#include "render/prepare/frame_setup.h"

namespace dapple {

// A pass depends only on the frame's setup and on the number of the pass.
struct FramePass {
    // Pass number `pass`, from 0. `frame` must outlive it.
    FramePass(const FrameSetup& frame, uint32_t pass);
    FramePass(const FramePass&) = delete;  // the stage points into it
    FramePass& operator=(const FramePass&) = delete;

    Wavelengths wavelengths;
    PassMaterials materials;
    float merge_radius;  // m; 0: photons are not merged
    SplatRadii splat_radii;
    Stage stage;  // its photons are set after the light walks are traced
};

}  // namespace dapple
