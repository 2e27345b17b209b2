// Whether what a night ranks by can be measured, before anything is rendered.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/variants/variants_file.h"

namespace dapple {

// Reports wishes for parts that the set does not have, and for measures that its part does not
// have. scenes/KEYS.md lists the measures.
void check_wishes(const VariantsFile& file, const Scene& scene, Problems& problems);

}  // namespace dapple
