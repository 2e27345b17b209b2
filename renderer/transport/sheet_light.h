// Light from a lamp to a receiver by way of one point sampled on lit cloth (E89).
//
// x is the point on the lamp, y the point on the cloth. The receiver z is a vertex of a sensor walk
// or a point of a meter's receptor.
#pragma once

#include <array>
#include <optional>

#include "transport/direct_light.h"

namespace dapple {

// Uniform numbers for a point on cloth and for a point on the lamp behind it.
struct SheetNumbers {
    std::array<float, 3> point;
    std::array<float, 2> lamp;
};

// A point y sampled on cloth for z, before any ray is traced.
struct SheetPoint {
    Vertex vertex;            // y, oriented towards z
    ConnectionTarget from_z;  // y as z sees it
    float density = 0;        // ps, per m²
    float per_area = 0;  // |cosθ| / d² at y: turns densities per sr at z into densities per m²
};

// Nothing if z is in the plane of the cloth at y, or if the cloth is black.
std::optional<SheetPoint> sample_sheet_point(
    const Stage& stage, size_t fixture, const Point& z, const std::array<float, 3>& u, int hero);

// The light that reaches z by way of y, and the densities of the other ways to make the same path,
// over ps pt.
struct SheetLight {
    Spectrum light;  // radiance times per_area over ps, with the transmittances of both edges
    // A sensor walk itself reaches y, and then the lamp is asked or met; without the density of the
    // step from z, per sr.
    float met = 0;
    // One light walk reaches y.
    float reached = 0;
    // One light walk reaches y, scatters towards z and passes straight over the edge to z; without
    // cosθ/d² at z.
    float walked = 0;
};

// Nothing if one of the edges is blocked or if y scatters none of the lamp's light to z.
std::optional<SheetLight> sample_sheet_light(const Stage& stage,
                                             Walk& walk,
                                             const Vertex& z,
                                             size_t fixture,
                                             const SheetPoint& y,
                                             const std::array<float, 2>& u);

}  // namespace dapple
