// Where a fixture stands and what its light passes: what is said of it in a sentence.
#pragma once

#include <string>
#include <vector>

#include "math/vec.h"

namespace dapple {

struct LampPlace {
    Point position{0};  // centre of the apparent source
    std::vector<std::string>
        passes;  // names of the glass and cloth on its axis, as light meets them
};

}  // namespace dapple
