// Pilot walks of a pass: which light walks fall on a receptor, and how much light they bring.
#pragma once

#include <vector>

#include "transport/stage.h"

namespace dapple {

// A light walk that fell on a receptor.
struct FallenWalk {
    int index = 0;  // among the fixture's light walks
    int meter = 0;
    double lux = 0;  // added to the reading; mean over the wavelengths
};

// Of all light walks of the fixture in the stage's pass.
std::vector<FallenWalk> find_fallen_walks(const Stage& stage, int fixture);

// What meter walks alone read, lx, by `walks` of them for each meter.
std::vector<double> read_by_meter_walks(const Stage& stage, int walks);

}  // namespace dapple
