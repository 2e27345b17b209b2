// What the passes of a frame are made from: the same for all of them, and for each.
//
// All of it comes from the scene, the options and the number of the pass, so that passes can be
// made by several processes and added up.
#pragma once

#include <cstdint>
#include <vector>

#include "render/first_look.h"
#include "render/render_frame.h"
#include "render/setup.h"
#include "transport/merge_cells.h"

namespace dapple {

struct FramePlan {
    FramePlan(const Scene& scene, const World& world, const RenderOptions& options);
    FramePlan(const FramePlan&) = delete;  // its passes point into it
    FramePlan& operator=(const FramePlan&) = delete;

    uint64_t seed;
    double footprint_px;
    Setup setup;
    std::vector<int> light_walks;  // per fixture, of a usual pass
    FirstHits first_hits;
    std::vector<uint8_t> pixel_walks;  // camera walks, by pixel
    float pixel_m = 0;                 // width of a pixel where it sees a surface, the median
    float first_merge_radius = 0;      // m; 0: nothing is merged
    MergeCells merge_cells;
};

// Pass number `pass`, from 0. It shares out the set-up's walks: the next one is made after it.
struct PassPlan {
    PassPlan(FramePlan& frame, uint32_t pass);
    PassPlan(const PassPlan&) = delete;  // the stage points into it
    PassPlan& operator=(const PassPlan&) = delete;

    Wavelengths wavelengths;
    PassMaterials materials;
    float merge_radius;  // m; 0: none
    FilmSink::Radii footprints;
    Stage stage;  // without photons yet
};

}  // namespace dapple
