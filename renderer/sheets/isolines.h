// Lines of equal value in a field, by marching squares (Lorensen and Cline 1987, in two
// dimensions).
#pragma once

#include <vector>

#include "math/vec.h"

namespace dapple {

// Values at the centres of pixels, rows from the top.
struct ScalarField {
    int width = 0, height = 0;
    std::vector<float> values;

    float at(int x, int y) const {
        return values[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
    }
};

struct Isoline {
    std::vector<DVec2> points;  // px; pixel (0, 0) has its centre at (0.5, 0.5)
    bool closed = false;

    double length() const;  // px
};

// All lines along which the field is `level`, linear between centres. A saddle is cut so that its
// high corners are joined where the mean of its corners is above the level.
std::vector<Isoline> find_isolines(const ScalarField& field, double level);

// The field blurred by a Gaussian of standard deviation `sigma` px; edges repeat.
ScalarField blur(const ScalarField& field, double sigma);

}  // namespace dapple
