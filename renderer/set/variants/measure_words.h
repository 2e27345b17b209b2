// The words for measures that `dapple search` and [rank] take beside the names in the statistics.
#pragma once

#include <string>

namespace dapple {

// "texture" is "texture_stops", "light" is "lux"; a name of the statistics stays as it is.
std::string measure_key(const std::string& word);

// The same of "back wall.texture"; without a dot it stays as it is.
std::string measure_address(const std::string& words);

}  // namespace dapple
