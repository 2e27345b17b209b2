// Options that stand before the file name of a map in an MTL file: "-s 2 2 1 wood floor.png".
#pragma once

#include <string>
#include <string_view>

namespace dapple {

// Takes the options off the front of `rest` and leaves the file name, which may hold blanks.
// Returns the first option that would change the picture, empty if none does.
std::string_view take_map_options(std::string_view& rest);

std::string lower_case(std::string_view word);  // ASCII

}  // namespace dapple
