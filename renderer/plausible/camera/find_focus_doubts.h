// A focus beyond everything in the frame, or one that leaves the face of every figure in the frame
// far from sharp.
//
// A picture that is sharp elsewhere on purpose is left out: on glass in the frame, or on the
// surface of a region.
#pragma once

#include "plausible/light/seen_frame.h"

namespace dapple {

struct SharpRange {
    double nearest = 0;   // m, along the way the camera looks
    double farthest = 0;  // infinite: everything behind
};

// The depth of field at the focus distance, which must be given (E81).
SharpRange sharp_range(const Camera& camera);

Doubts find_focus_doubts(const StagedSet& set, const SeenFrame& frame);

}  // namespace dapple
