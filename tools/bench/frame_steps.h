// The time of each step from a set's text to a picture, as the desk takes them.
#pragma once

#include <string>
#include <vector>

namespace dapple {

struct StepTime {
    std::string step;
    double seconds = 0;      // median over the repeats
    double cpu_seconds = 0;  // of all threads, median
};

// One pass at `width` pixels across. Throws FileError if the set cannot be read.
std::vector<StepTime> time_frame_steps(const std::string& set, int width, int repeats);

}  // namespace dapple
