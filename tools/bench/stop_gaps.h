// How long the desk's work on a frame goes on after it was told to stop.
//
// All steps of a frame at rest are done as the desk does them, and each look at whether to stop is
// noted with the processor time of its thread. The longest time between two looks of one thread is
// how long that thread would have gone on at worst, on a machine that does nothing else.
#pragma once

#include <string>
#include <vector>

namespace dapple {

struct StopGap {
    std::string step;
    double longest_s = 0;  // processor time of one thread
    double all_s = 0;      // of all threads, of the whole step
    int looks = 0;
};

// In the order of the work. Throws FileError if the set cannot be read.
std::vector<StopGap> find_stop_gaps(const std::string& set, int width);

}  // namespace dapple
