// Pilot walks that find how much light each fixture brings to the vertices of camera walks.
#pragma once

#include <vector>

#include "transport/asked_lamps.h"
#include "transport/stage.h"

namespace dapple {

// A vertex of a pilot walk.
struct AskPoint {
    Point position{0};
    Normal normal{0, 0, 1};  // geometric
    AskedLight light;
};

// Traces pilot walk `number` through a pixel and adds its first few vertices to `points`.
void trace_ask_pilot(
    const Stage& stage, int x, int y, uint32_t number, std::vector<AskPoint>& points);

}  // namespace dapple
