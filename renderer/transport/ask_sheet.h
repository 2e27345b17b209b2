// What a receiver gets from a lamp by way of one point drawn on lit cloth (E71).
//
// x is on the lamp, y on the cloth. The receiver z is a vertex of a sensor walk or a point of a
// meter's receptor.
#pragma once

#include <array>
#include <optional>

#include "transport/ask_lamp.h"

namespace dapple {

// Uniform numbers for a point on cloth and one on the lamp behind it.
struct SheetNumbers {
    std::array<float, 3> point;
    std::array<float, 2> lamp;
};

// The point y on cloth as it was drawn for z; nothing has been traced yet.
struct SheetPoint {
    Vertex vertex;          // seen from z
    ConnectionTarget from;  // y as z sees it
    float density = 0;      // ps, per m²
    float per_area = 0;  // |cosθ| / d² at y: turns densities per sr at z into densities per m²
};

// Nothing where z cannot see the point.
std::optional<SheetPoint> draw_on_sheet(
    const Stage& stage, size_t fixture, const Point& z, const std::array<float, 3>& u, int hero);

// The light that reaches z by way of y, and the densities of the other ways to the same path, over
// ps pt.
struct SheetAnswer {
    Spectrum light;  // radiance times per_area over ps, with what passes on both edges
    // A sensor walk reaches y by itself, and then the lamp is asked or met; without the density at
    // z, per sr.
    float met = 0;
    // One light walk reaches y.
    float fallen = 0;
    // One light walk reaches y and scatters towards z; without cosθ/d² at z.
    float walked = 0;
};

// Nothing where either edge is blocked or y sends none of the lamp's light to z.
std::optional<SheetAnswer> ask_sheet(const Stage& stage,
                                     Walk& walk,
                                     const Vertex& z,
                                     size_t fixture,
                                     const SheetPoint& y,
                                     const std::array<float, 2>& u);

}  // namespace dapple
