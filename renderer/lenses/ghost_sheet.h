// The light of one lamp on one route through the lens: a grid of exact rays over the part of the
// front element from which light gets through.
//
// The light through a patch dA of the plane of the first vertex is dΦ = E cosθ dA, with E the
// illuminance that the lamp gives there, facing it. The light between the rays is interpolated.
// Light enters through the front element's disc in that plane; its rim lies a little behind it, so
// at steep angles the light at one edge of the disc, a few per cent, is left out.
#pragma once

#include <vector>

#include "lenses/hood.h"
#include "lenses/trace_lens.h"

namespace dapple {

struct GhostSheet {
    int size = 0;                   // rays across; none: no light gets through
    DVec2 low{0}, high{0};          // mm, the part of the front element, x towards the lamp
    std::vector<LensArrival> rays;  // rows of y
    double patch = 0;               // mm² of the front's plane that each ray stands for
    double cosine = 1;              // of the light to the axis

    const LensArrival& at(int i, int j) const {
        return rays[static_cast<size_t>(j) * static_cast<size_t>(size) + static_cast<size_t>(i)];
    }
};

// `lamp`: mm, in front of the first vertex (z below 0), with y = 0. Rays are about `size` across.
GhostSheet trace_sheet(const RealLens& lens,
                       const Hood& hood,
                       const LightRoute& route,
                       const LensVec& lamp,
                       int wavelength,
                       int size);

// Over the light that enters the front element, which the hood may shade: the share that gets
// through to the film, at the eight wavelengths (non-dispersive lenses), and the middle and the
// extent of where it arrives, along x.
struct SheetSum {
    Spectrum share{0};
    DVec2 mean{0};             // mm, weighted by the light at 550 nm
    double low = 0, high = 0;  // mm, along x
};
SheetSum sum_sheet(const RealLens& lens, const LightRoute& route, const GhostSheet& sheet);

}  // namespace dapple
