// What a position outside the room was probably meant to be.
#pragma once

#include <string>

#include "math/vec.h"
#include "set/set_description.h"

namespace dapple {

// "[1.2, 0, -0.35]", rounded to the millimetre.
std::string triple_text(const Triple& value);

// "; with y and z exchanged it would be inside: position = [1, 1.6, -0.5] (y is up)", or the same
// for centimetres and millimetres; "" if neither brings it into the box.
std::string likely_place_text(const Triple& written, const Bounds& box);

}  // namespace dapple
