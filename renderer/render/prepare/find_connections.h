// Traces the pilot walks that find which stored vertices camera walks should be connected to
// (transport/connection_table.h). The pilot is the same for every seed and pass.
#pragma once

#include <optional>
#include <vector>

#include "render/prepare/setup.h"
#include "transport/connection_table.h"

namespace dapple {

// `light_walks`: of each fixture in a usual pass. `pixels`: of the frame. Nothing if no light walk
// has a rough vertex or no camera walk finds one.
std::optional<ConnectionTable> find_connections(const Setup& setup,
                                                const std::vector<int>& light_walks,
                                                double pixels);

}  // namespace dapple
