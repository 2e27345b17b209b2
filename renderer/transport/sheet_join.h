// What a receiver gets from a lamp by way of one point drawn on lit cloth (E71).
//
// x on the lamp, y on the cloth, z the receiver, which may be a meter's receptor.
#pragma once

#include <array>

#include "transport/walk.h"

namespace dapple {

// A point on cloth, drawn for z; nothing is traced yet.
struct SheetPoint {
    Vertex at;                     // y, seen from z
    Direction direction{0, 0, 1};  // to it
    float distance = 0;            // m
    float density = 0;             // ps, per m²
    float per_area = 0;            // |cosθ| / d² at y: turns densities per sr at z into per m²
};

// False where z cannot see it.
bool draw_on_sheet(const Stage& stage,
                   size_t fixture,
                   const Point& from,
                   const std::array<float, 3>& u,
                   int hero,
                   SheetPoint& sheet);

// The light that comes to z from there, and the other ways to the same path, over this one.
struct SheetLight {
    Spectrum light;    // radiance times per_area over ps, with what passes on both ways
    float met = 0;     // z's walk came to y by itself, then asked for the lamp or met it; without
                       // its density at z, per sr
    float fallen = 0;  // a light walk came to y; without its number
    float walked =
        0;  // and went on to z; without its density there, per m², over that at y, per sr
};

bool ask_sheet(const Stage& stage,
               Walk& walk,
               const Vertex& z,
               size_t fixture,
               const SheetPoint& sheet,
               const std::array<float, 2>& u,
               SheetLight& light);

}  // namespace dapple
