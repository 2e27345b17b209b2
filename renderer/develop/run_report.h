// How a run of passes went: of a frame, or of light meters alone.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace dapple {

struct RunReport {
    std::string set;  // absolute path of the set file; "": not known
    int passes = 0;
    double seconds = 0;
    uint64_t rays = 0;
    uint64_t seed = 1;
    uint64_t nonfinite_samples = 0;
    bool stopped_early = false;
    // Below 1: no pass is finished. The share of the first pass's camera walks that were traced.
    double first_pass_share = 1;
    int draft_width = 0;  // px, of a draft in place of the frame; 0: of the frame
    std::string transport = "full";
    int threads = 0;
    // Error of the typical pixel, %: of the measured film and of the clean frame.
    std::optional<double> noise_percent, clean_noise_percent;
};

}  // namespace dapple
