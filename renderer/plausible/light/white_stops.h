// Exposure in messages: luminance against the camera's white, in stops, and the camera's setting.
#pragma once

#include <string>

#include "plausible/staged_set.h"

namespace dapple {

// `luminance`: cd/m². Below 0 is darker than white.
double stops_from_white(const StagedSet& set, double luminance);

// "about 3 stops", without a sign.
std::string stops_text(double stops);

// The key to change for another exposure: the shutter if it is written, else the ISO.
const Field<double>& exposure_key(const StagedSet& set);

// "at f/2.8, 1/60 s, ISO 800"
std::string setting_text(const Camera& camera);

}  // namespace dapple
