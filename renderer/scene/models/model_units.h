// Converts a model's numbers to metres with y up. Nothing else converts them.
#pragma once

#include <array>

#include "base/problems.h"
#include "math/vec.h"
#include "set/set_description.h"

namespace dapple {

struct ModelAxes {
    double scale = 1;  // m per unit of the model
    bool z_up = false;

    // From z up to y up is a turn about x: (x, y, z) becomes (x, z, -y).
    Vec3 turned(const std::array<float, 3>& v) const {
        return z_up ? Vec3(v[0], v[2], -v[1]) : Vec3(v[0], v[1], v[2]);
    }
    Point position(const std::array<float, 3>& v) const {
        return Point(scale * glm::dvec3(turned(v)));
    }
};

ModelAxes build_model_axes(const ModelUnits& units, Problems& problems);

}  // namespace dapple
