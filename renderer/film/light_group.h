// Light groups and their colour.
//
// A light group is a fixture, or the warm or cool channel of one. A walk carries throughput at the
// pass's wavelengths; the group's `GroupColour` of the pass turns it into XYZ (E108).
#pragma once

#include <array>
#include <string>

#include "spectrum/curve.h"
#include "spectrum/wavelengths.h"

namespace dapple {

struct LightGroup {
    std::string name;  // "key", "net.warm", "net.cool"
    Curve spectrum;    // per lumen of the group's share: 683 ∫ S V dλ = share
    int fixture = 0;
};

// Weights that turn throughput at the pass's wavelengths into XYZ.
struct GroupColour {
    Spectrum x, y, z;
    // Exact X, Y and Z over those of this pass's wavelengths.
    std::array<float, 3> ratios = {1, 1, 1};
};

GroupColour make_group_colour(const LightGroup& group, const Wavelengths& wavelengths);

}  // namespace dapple
