// The data that all passes of one frame share, in addition to the scene's Setup (setup.h).
//
// All of it depends only on the scene and the options, so several processes can make passes that
// are then added up.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "render/pixel_tracer.h"
#include "render/prepare/find_first_hits.h"
#include "render/prepare/find_seen_points.h"
#include "render/prepare/pilots.h"
#include "render/prepare/setup.h"
#include "render/render_options.h"
#include "render/work_watch.h"

namespace dapple {

struct FrameSetup {
    // Throws StoppedWork if `watch` stops the work.
    FrameSetup(const Scene& scene,
               const World& world,
               const RenderOptions& options,
               WorkWatch& watch);
    FrameSetup(const FrameSetup&) = delete;  // passes point into it
    FrameSetup& operator=(const FrameSetup&) = delete;

    uint64_t seed;
    double footprint_px;
    Setup setup;
    std::vector<int> light_walks;  // per fixture, in every pass but the first
    FirstHits first_hits;
    FinePoints fine;
    SeenPoints seen;
    CameraPlan camera_plan;
    float pixel_m = 0;             // median width of a pixel on the surface that it sees
    float first_merge_radius = 0;  // m, in the first pass; 0: photons are not merged
    std::shared_ptr<const Pilots> pilots;

  private:
    std::shared_ptr<const Pilots> find_pilots(const RenderOptions& options, WorkWatch& watch) const;
};

}  // namespace dapple
