// The light that the lens adds to the picture and takes from it, by light group: what is added to
// the film to give what the sensor gets.
#pragma once

#include <vector>

#include "math/vec.h"
#include "scene/glare_report.h"

namespace dapple {

struct GlareFrame {
    // By light group, or one for all together; rows from the top, Y in cd/m².
    std::vector<std::vector<Xyz>> layers;
    GlareReport report;

    bool is_there() const { return !layers.empty(); }
};

}  // namespace dapple
