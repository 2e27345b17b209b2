// The pattern that is cut into the outside of made glass: its depth below the plain surface.
//
//   cut(x, y) = depth f(x, y) g(u, v),   0 <= g <= 1                                         (E57)
// x runs around a solid (rad) or across a pane (m), y up (m); u and v count the pattern's periods.
// The share f fades to 0 at the ends by raised cosines, so that rims, heels and edges stay plain.
//   ribbed    g = (1 - cos 2πu) / 2
//   reeded    g = 2 u²/a up to |u| = a from the crest, then 1 - 2 (1/2 - |u|)²/b;            (E58)
//             a = 0.4, b = 1/2 - a: round reeds, each a cylindrical lens, and narrow round grooves
//   hammered  g = 1 - Π (1 - (1 - q²)³), q the distance to a dent over its radius            (E59)
//   wavy      g = 1/2 + 1/2 Σ a cos(2π (k u + l v) + θ), Σ a = 1                             (E60)
// Dents and waves are random, from a seed. All patterns are smooth, so that normals are continuous.
#pragma once

#include <vector>

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

inline constexpr double kReed = 0.4;  // a of E58, half the width of a reed
inline constexpr double kGroove = 0.5 - kReed;

struct ReliefPoint {
    double cut = 0;      // m, how far the surface is below the plain one
    double along_x = 0;  // its derivative, m/rad around a solid, m/m across a pane
    double along_y = 0;
};

struct Relief {
    GlassSurface surface = GlassSurface::kPlain;
    double depth = 0;   // m, crest to trough
    double period = 1;  // in x, for one of u; rad or m
    double rise = 1;    // in y, for one of v; m
    int count = 0;      // periods around a solid; 0: a pane
    double twist = 0;   // rad/m, turn of ribs around a solid over height
    double low = 0;     // m, where the fade at the lower end begins
    double high = 0;    // m, where the fade at the upper end ends
    double fade = 1;    // m, length of each fade
    double half = 0;    // m, of a pane: the fades at its sides end at ±half
    uint64_t seed = 1;

    bool any() const { return surface != GlassSurface::kPlain; }
    // Whether the surface is straight along its ribs, so that few rows of vertices are enough.
    bool ruled() const {
        return surface == GlassSurface::kRibbed || surface == GlassSurface::kReeded;
    }
    ReliefPoint at(double x, double y) const;

    // Limits that decide how fine a mesh must be, of the pattern as a height over metres.
    double steepest(double radius) const;  // slope; radius 1 on a pane
    double bend() const;                   // second derivative of the slope, 1/m²: dents and waves
};

}  // namespace dapple
