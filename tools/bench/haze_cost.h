// What haze costs: the processor time of a picture with haze over that of the same picture in clear
// air, for the same noise.
//
// The noise is the variance over passes, for each pixel relative to its squared luminance, so that
// time times variance does not depend on the number of passes. The set is rendered as it is, but
// for its haze. Passes of both take turns, so that other load on the machine affects both.
#pragma once

#include <string>

#include "load_set.h"

namespace dapple {

struct HazeCostOptions {
    std::string set;
    int width = 240;  // px
    int passes = 10;
    int seeds = 2;            // renders of each, with as many passes
    double visibility_m = 0;  // of haze in place of the set's; 0: the set's own
};

// Of the frame, in one state of the air.
struct AirCost {
    double cpu_seconds = 0;       // of a pass, all threads; without the first, which is smaller
    double median_variance = 0;   // of one pass, relative; over pixels
    double trimmed_variance = 0;  // the mean without the noisiest 3 % of the pixels
    double luminance = 0;         // mean of the frame, cd/m²
};

struct HazeCost {
    int width = 0, height = 0;
    AirCost clear, hazy;
    // Time for the same noise over that in clear air, with the standard error that the seeds give.
    double median = 0, median_se = 0;
    double trimmed = 0, trimmed_se = 0;
};

// Throws FileError if the set cannot be read or has no haze and none is asked for.
HazeCost measure_haze_cost(const HazeCostOptions& options);

}  // namespace dapple
