// What the centre of each pixel sees first: pictures without noise. The EXR, regions by surface and
// sizes on surfaces use them. Rows from the top, one entry per pixel.
#pragma once

#include <cstdint>
#include <vector>

#include "math/vec.h"

namespace dapple {

struct FirstHits {
    int width = 0, height = 0;       // 0: not made
    std::vector<Rgb> albedo;         // linear Rec.709; black where nothing
    std::vector<Normal> normal;      // world frame, towards the camera; zero where nothing
    std::vector<float> depth;        // m along the view axis; infinity where nothing
    std::vector<int32_t> surface;    // material, -1 where nothing
    std::vector<float> footprint_m;  // width of a pixel on the surface, m; 0 where nothing

    bool empty() const { return width == 0 || height == 0; }
};

}  // namespace dapple
