// What the pixels of a frame see that has several pixels in each pixel of a coarser one. Its light
// is measured in the coarse one and brought up along these (clean/finer_frame.h).
#pragma once

#include <vector>

#include "film/seen_points.h"

namespace dapple {

struct FinePoints {
    int step = 1;  // pixels across one of the coarse frame; odd
    SeenPoints seen;
    // 1: out of focus by at least a coarse pixel, so that no edge is to be seen there.
    std::vector<char> blurred;
};

}  // namespace dapple
