// Lengths, ways and places as messages print them.
#pragma once

#include <string>

#include "scene/room/likely_place.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// "8 mm", "4 cm", "1.2 m"
std::string length_text(double metres);

// To the millimetre: "8 mm", "1.3 cm", "1.213 m"
std::string fine_length_text(double metres);

// The written position, moved: "position = [1.2, 0, -0.35]".
std::string moved_text(const Field<Triple>& position, const Vec3& by);

// "to camera left", "up", "towards the camera", "to camera right and away from the camera"
std::string way_text(const Direction& way, const Camera& camera);

}  // namespace dapple
