// What a vertex of a light walk sends on of the light that falls on it, by the law of its material
// and not by what walks carry away from it: a stated share where the law is one (diffuse, sheets,
// r + t = 1 at clear glass), else an estimate of ∫ f |cosθ| dω from directions drawn here.
#pragma once

#include "transport/walk.h"

namespace dapple::published {

struct SentOn {
    Spectrum by_law{0.0F};  // of all that falls on the vertex
    // Of it, what is left where the surface is shaded with an interpolated normal: the factor of
    // E50, and nothing towards directions that the two normals see on different sides.
    Spectrum with_normal{0.0F};
};

// With chance in it: right in the mean over walks.
SentOn sent_on(const Vertex& vertex, RandomStream& random);

}  // namespace dapple::published
