// Luminance against the camera's white, in stops, and in words.
#pragma once

#include <string>

#include "plausible/staged_set.h"

namespace dapple {

// `luminance`: cd/m². Below 0 is darker than white.
double stops_from_white(const StagedSet& set, double luminance);

// "about 3 stops", without a sign.
std::string stops_text(double stops);

}  // namespace dapple
