// Traces the pilot walks that find which lamps a vertex should ask (transport/asked_lamps.h). The
// pilot is the same for every seed and pass.
#pragma once

#include <optional>

#include "render/prepare/setup.h"
#include "transport/asked_lamps.h"

namespace dapple {

// Nothing if there is only one lamp and no lit cloth: then every vertex asks all.
std::optional<AskedLamps> find_asked_lamps(const Setup& setup);

}  // namespace dapple
