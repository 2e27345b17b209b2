// All techniques that can make a hand-made path, with their densities and their weights.
#pragma once

#include <string>
#include <vector>

#include "transport/hand_made_path.h"

namespace dapple::test {

struct WeighedTechnique {
    std::string name;
    double density = 0;  // by definition, times the technique's number of samples
    double weight = 0;   // as the renderer computes it
};

std::vector<WeighedTechnique> weigh_all_techniques(const HandMadePath& path);

}  // namespace dapple::test
