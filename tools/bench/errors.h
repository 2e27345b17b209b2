// The errors of the transports after the same time, by region of a set, against two references.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compare.h"
#include "load_set.h"
#include "render/render_frame.h"
#include "sharpness.h"

namespace dapple {

// A way of rendering, with its name in the tables.
struct Mode {
    std::string name;
    Transport transport = Transport::kFull;
    bool footprints = true;
    bool aimed = true;
    bool cleaned = false;  // the clean frame is judged
};
// full, clean (the clean frame of full), unaimed, walks, points (walks without footprints),
// partition, camera.
const std::vector<Mode>& all_modes();

// The error of a run in one region.
struct RegionError {
    std::string region;
    Distance distance;
    double energy_se = 0;                // standard error of the energy, from the spread of passes
    std::optional<Sharpness> sharpness;  // of lit regions that are full rectangles
};

// The machine's load average over a minute; -1 if it is not known.
double load_average();

struct Run {
    std::vector<std::vector<double>> luminance;  // by region and pixel, cd/m²
    std::vector<std::vector<double>> clean;      // the same of the clean frame
    std::vector<double> relative_se;             // of each region's mean
    int passes = 0;
    double seconds = 0;
    double cpu_seconds = 0;  // of all threads; less than threads × seconds on a busy machine
    double load = 0;         // load average at the end
    double rays_per_second = 0;
};

Run run_mode(const LoadedSet& set, const Mode& mode, double seconds, uint64_t seed);

// References for each region.
std::vector<References> make_references(const LoadedSet& set, double seconds);

std::vector<RegionError> judge_run(const LoadedSet& set,
                                   const Run& run,
                                   const std::vector<References>& references);

}  // namespace dapple
