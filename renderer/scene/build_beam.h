// How wide a fixture's beam is and how much light it has.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// Both want the fixture's form and its photometric file.
void build_beam(const FixtureDescription& description, Fixture& fixture, Problems& problems);
void build_output(const FixtureDescription& description, Fixture& fixture, Problems& problems);

}  // namespace dapple
