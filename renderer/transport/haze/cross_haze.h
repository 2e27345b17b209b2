// A sensor walk on its way through haze: it may be scattered before it meets a surface.
#pragma once

#include "transport/haze/haze_leg.h"

namespace dapple {

enum class LegEnd {
    kSurface,  // the walk met a surface: `vertex`
    kHaze,     // it was scattered on the way, and a new edge begins
    kNothing   // it is over
};

// A second walk, and where the light that it collects is added.
struct HazeBranch {
    std::optional<SensorWalk> walk;
    std::span<Spectrum> by_fixture;
};

// Follows the walk's ray, and adds the light that haze scatters along it.
//
// While the walk has met only smooth surfaces, it goes on to the next surface and is dimmed, and a
// second walk is scattered on the way: `branch`. So what the lens sees behind haze has no more
// noise than in clear air. A later walk does one of the two at random.
LegEnd cross_haze(const Stage& stage,
                  SensorWalk& sensor,
                  Vertex& vertex,
                  SensorNumbers& numbers,
                  const SensorLight& light,
                  HazeBranch& branch);

}  // namespace dapple
