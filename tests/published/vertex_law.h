// The share of light that a vertex of a light walk sends on, from the law of its material, not from
// the throughput of walks: a stated share if the law has one (diffuse, sheets, r + t = 1 at clear
// glass), else an estimate of ∫ f |cosθ| dω from directions drawn here.
#pragma once

#include "transport/walk.h"

namespace dapple::published {

struct SentOn {
    Spectrum by_law{0.0F};  // share of all light that reaches the vertex
    // The same with the interpolated normal: times the factor of E74, and 0 towards directions that
    // are on different sides of the two normals.
    Spectrum with_normal{0.0F};
};

// A random estimate; its mean over walks is right.
SentOn sent_on(const Vertex& vertex, RandomStream& random);

}  // namespace dapple::published
