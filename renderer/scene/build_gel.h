// gel = { … } of a fixture to Gel.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// `fixture` knows its source already.
Gel build_gel(const GelDescription& description, const Fixture& fixture, Problems& problems);

}  // namespace dapple
