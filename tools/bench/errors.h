// The error of the transports in the regions of a set after the same time, against two references.
#pragma once

#include <string>
#include <vector>

#include "compare.h"
#include "load_set.h"
#include "render/render_frame.h"
#include "sharpness.h"

namespace dapple {

// A way of rendering, as it is called in the tables.
struct Mode {
    std::string name;
    Transport transport = Transport::kFull;
    bool footprints = true;
    bool aimed = true;
};
// full, unaimed, walks, points (walks without footprints), partition, camera.
const std::vector<Mode>& all_modes();

// A region of the frame as a run or the references saw it.
struct RegionError {
    std::string region;
    Distance distance;
    double energy_se = 0;  // standard error of the energy, by the spread of passes
    Sharpness sharpness;   // of lit regions that are full rectangles
    bool has_sharpness = false;
};

struct Run {
    std::vector<std::vector<double>> luminance;  // by region and pixel, cd/m²
    std::vector<double> relative_se;             // of each region's mean
    int passes = 0;
    double seconds = 0;
    double cpu_seconds = 0;  // of all threads; far below threads × seconds: others took their share
    double rays_per_second = 0;
};

Run run_mode(const LoadedSet& set, const Mode& mode, double seconds, uint64_t seed);

// By region.
std::vector<References> make_references(const LoadedSet& set, double seconds);

std::vector<RegionError> judge_run(const LoadedSet& set,
                                   const Run& run,
                                   const std::vector<References>& references);

}  // namespace dapple
