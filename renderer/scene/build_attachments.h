// What is fixed to a fixture or holds it: barn doors, a snoot, a stand; and what a rigger asks of
// it.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// Wants the fixture's form, axis and sizes.
void build_attachments(const FixtureDescription& description, Fixture& fixture, Problems& problems);

// Power, supply, circuit, clearance.
void build_supply(const FixtureDescription& description, Fixture& fixture, Problems& problems);

PowerSupply build_power(const PowerDescription& description, Problems& problems);

}  // namespace dapple
