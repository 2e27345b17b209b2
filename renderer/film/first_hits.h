// What the centre of each pixel sees first: pictures without noise. The EXR, regions by surface and
// sizes on surfaces use them. Rows from the top, one entry per pixel.
#pragma once

#include <cstdint>
#include <optional>
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
    // The fixture whose own face the pixel shows, in part or blurred; -1: none. Empty: not known.
    std::vector<int32_t> lamp = {};

    bool empty() const { return width == 0 || height == 0; }
};

// The pixels that see `surface` (-1: anything) in the rectangle x0, y0, x1, y1 (none: the frame),
// ascending. The last column x1 and the last row y1 are not part of it.
std::vector<int32_t> find_pixels(const FirstHits& hits,
                                 int32_t surface,
                                 const std::optional<glm::ivec4>& rect);

}  // namespace dapple
