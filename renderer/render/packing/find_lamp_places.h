// The places of the fixtures, with the glass and cloth on their axes.
#pragma once

#include "geometry/world.h"
#include "scene/lamp_place.h"
#include "scene/scene.h"

namespace dapple {

// One for each fixture, in the scene's order.
std::vector<LampPlace> find_lamp_places(const Scene& scene, const World& world);

}  // namespace dapple
