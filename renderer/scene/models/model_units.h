// Converts a model's numbers to metres with y up. Nothing else converts them.
#pragma once

#include <array>

#include "base/problems.h"
#include "math/vec.h"
#include "set/models/model_description.h"
#include "set/set_description.h"

namespace dapple {

struct ModelAxes {
    double scale = 1;  // m per unit of the model
    bool z_up = false;
    glm::dvec3 origin{0};  // becomes 0, in the model's own unit and axes

    // From z up to y up is a turn about x: (x, y, z) becomes (x, z, -y).
    template <class Number>
    glm::vec<3, Number> turned(const std::array<Number, 3>& v) const {
        return z_up ? glm::vec<3, Number>(v[0], v[2], -v[1])
                    : glm::vec<3, Number>(v[0], v[1], v[2]);
    }
    // In doubles up to the last step, as map coordinates have more digits than floats.
    Point position(const std::array<double, 3>& v) const {
        return Point(scale * turned<double>({v[0] - origin.x, v[1] - origin.y, v[2] - origin.z}));
    }
};

// A model that is so far from its origin that floats would blur it, as map coordinates are, is
// moved, with a note: the middle of its lowest points becomes the origin.
ModelAxes build_model_axes(const Field<std::string>& file,
                           const ModelUnits& units,
                           const ModelDescription& model,
                           Problems& problems);

}  // namespace dapple
