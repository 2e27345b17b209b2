// What is said of the lamps that the lens sees, and what would shade the lens from them.
#pragma once

#include "glare/add_ghosts.h"

namespace dapple {

// `lens`: nullptr without a lens of glass. `ghosts`: of each light.
std::vector<GlareLamp> report_lamps(const Setup& setup,
                                    const RealLens* lens,
                                    const Hood& hood,
                                    const std::vector<LensLight>& lights,
                                    const std::vector<std::vector<Ghost>>& ghosts);

}  // namespace dapple
