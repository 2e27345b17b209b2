// The data of one pass of a frame.
#pragma once

#include <optional>

#include "render/film_sink.h"
#include "render/pixel_lattice.h"
#include "render/prepare/frame_setup.h"
#include "render/schedule.h"

namespace dapple {

// A pass depends only on the frame's setup and on the number of the pass.
struct FramePass {
    // Pass number `pass`, from 0. `frame` must outlive it.
    FramePass(const FrameSetup& frame, uint32_t pass);
    FramePass(const FramePass&) = delete;  // the stage points into it
    FramePass& operator=(const FramePass&) = delete;

    // Takes the pixels from coarse to fine, so that a part of the pass can be shown.
    void use_lattice() { lattice.emplace(stage.scene.camera.width, stage.scene.camera.height); }

    Wavelengths wavelengths;
    PassMaterials materials;
    float merge_radius;  // m; 0: photons are not merged
    SplatRadii splat_radii;
    GlowSpread glow_spread;
    Stage stage;  // without photons and stored vertices
    // The order of the camera walks; nothing: row by row.
    std::optional<PixelLattice> lattice;
};

}  // namespace dapple
