// Whether a ray meets a box.
#pragma once

#include <utility>

#include "math/vec.h"

namespace dapple {

inline bool meets(const Bounds& box, const Point& origin, const Direction& direction) {
    float near = 0;
    float far = kInfinity;
    for (int a = 0; a < 3; ++a) {
        const float inverse = 1.0F / direction[a];
        float t0 = (box.low[a] - origin[a]) * inverse;
        float t1 = (box.high[a] - origin[a]) * inverse;
        if (t0 > t1) std::swap(t0, t1);
        // The comparisons are written so that a NaN (0 times infinity) does not change the
        // interval.
        near = t0 > near ? t0 : near;
        far = t1 < far ? t1 : far;
    }
    return near <= far;
}

}  // namespace dapple
