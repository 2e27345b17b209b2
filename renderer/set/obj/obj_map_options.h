// The options before the file name of a map in an MTL file: "-s 2 2 1 wood floor.png".
#pragma once

#include <string_view>

namespace dapple {

// Removes the options from the front of `rest`, which leaves the file name; that may contain
// blanks. Returns the first option that would change the picture, or an empty one.
std::string_view take_map_options(std::string_view& rest);

}  // namespace dapple
