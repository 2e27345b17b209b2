// Traces the pilot walks that find which stored vertices camera walks should be connected to
// (transport/connection_table.h). The pilot is the same for every seed and pass.
#pragma once

#include <optional>

#include "render/prepare/light_pilot.h"
#include "transport/connection_table.h"

namespace dapple {

// `pixels`: of the frame. Nothing if no light walk has a rough vertex or no camera walk finds one.
std::optional<ConnectionTable> find_connections(const Setup& setup,
                                                const LightPilot& pilot,
                                                double pixels);

}  // namespace dapple
