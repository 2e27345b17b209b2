// The pattern that is cut into the outside of made glass: how deep it lies under the plain surface.
//
//   cut(x, y) = depth f(x, y) g(u, v),   0 <= g <= 1                                        (E110)
// x runs round a solid (rad) or across a pane (m), y up (m); u and v count the pattern's periods.
// The share f fades to 0 at the ends by raised cosines, so that rims, heels and edges stay plain.
//   ribbed    g = (1 - cos 2πu) / 2
//   reeded    g = 2 u²/a up to |u| = a from the crest, then 1 - 2 (1/2 - |u|)²/b;           (E111)
//             a = 0.4, b = 1/2 - a: round reeds, each a cylindrical lens, and narrow round grooves
//   hammered  g = 1 - Π (1 - (1 - q²)³), q the distance to a dent over its radius           (E112)
//   wavy      g = 1/2 + 1/2 Σ a cos(2π (k u + l v) + θ), Σ a = 1                            (E113)
// Dents and waves are drawn from a seed. All are smooth, so that normals are continuous.
#pragma once

#include <vector>

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

inline constexpr double kReed = 0.4;  // a of E111, half the width of a reed
inline constexpr double kGroove = 0.5 - kReed;

struct ReliefPoint {
    double cut = 0;      // m, how far the surface lies inside
    double along_x = 0;  // its derivative, m/rad round a solid, across a pane none
    double along_y = 0;
};

struct Relief {
    GlassSurface surface = GlassSurface::kPlain;
    double depth = 0;   // m, crest to trough
    double period = 1;  // of u in x, rad or m
    double rise = 1;    // of v in y, m
    int count = 0;      // periods round a solid; 0: across a pane
    double twist = 0;   // rad/m, how ribs turn round a solid on their way up
    double low = 0;     // m, where the fade at the lower end begins
    double high = 0;    // m, where the one at the upper end ends
    double fade = 1;    // m, length of each fade
    double half = 0;    // m, of a pane: the same at its sides, at ±half
    uint64_t seed = 1;

    bool any() const { return surface != GlassSurface::kPlain; }
    // Alike along its ribs, so that few rows of vertices carry it.
    bool ruled() const {
        return surface == GlassSurface::kRibbed || surface == GlassSurface::kReeded;
    }
    ReliefPoint at(double x, double y) const;
    double share(double y) const;  // the part of f that depends on y

    // What bounds how fine a mesh must be, the pattern seen as a height over metres.
    double steepest(double radius) const;  // slope; radius 1 on a pane
    double bend() const;                   // second derivative of the slope, 1/m²: dents and waves
};

}  // namespace dapple
