// What each pixel sees, for the clean frame: where two pixels see the same kind of surface, their
// light may be compared. Through smooth glass it is the surface behind the glass.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "math/vec.h"

namespace dapple {

struct SeenPoint {
    Point position{0};        // world frame
    float footprint_m = 0;    // width of a pixel on the surface, m
    Normal normal{0};         // world frame, towards the camera
    int32_t surface = -1;     // -1 where nothing is seen; different behind glass
    Rgb albedo{0};            // linear Rec.709; out of focus, the mean over the blur
    float blur_px = 0;        // diameter of the blur; 0: sharp
    bool shows_lamp = false;  // a lamp's own face, or a part of it
};

// The surface of a pixel that shows a lamp's own face far out of focus: this and the lamp's number.
// All such pixels of a lamp have the same light.
inline constexpr int32_t kSoftLamps = 0x20000000;
inline bool is_soft_lamp(const SeenPoint& seen) {
    return seen.surface >= kSoftLamps && seen.surface < 2 * kSoftLamps;
}

// A pixel at the rim of a surface. Its area shows the surfaces that its 3 × 3 pixels see at their
// centres, each with its share; row by row.
struct SharedPixel {
    int32_t pixel = 0;
    std::array<float, 9> shares{};  // sum 1
};

struct SeenPoints {
    int width = 0, height = 0;
    std::vector<SeenPoint> pixels;    // at the centre of each pixel, rows from the top
    std::vector<SharedPixel> shared;  // by pixel
};

// How alike two points are, from 0 to 1: the same surface, much the same normal, and each near the
// other's tangent plane.
float likeness(const SeenPoint& a, const SeenPoint& b);

// The same of two pixels `apart_px` from each other. Out of focus, neighbours show much the same
// things, whatever is at their centres:
//   at least clamp(2 - 8 d / b, 0, 1)                                                    (E144)
// d: their distance; b: the smaller blur of the two, px. It is 1 up to a quarter of the blur's
// radius.
float likeness(const SeenPoint& a, const SeenPoint& b, float apart_px);

}  // namespace dapple
