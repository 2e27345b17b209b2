// The size of a room as people write it down from a tape.
#pragma once

#include <array>
#include <optional>
#include <string>

namespace dapple {

// Width, length and height in metres; nothing if they are not three lengths. They are parted by x,
// ×, *, "by", commas, semicolons or blanks. A unit at the end counts for all that have none:
// "9 12 4", "8 x 12 x 4 m", "9,5 x 12 x 4", "26 ft x 40 ft x 12 ft 6 in", "26' 40' 12'6\"".
std::optional<std::array<double, 3>> read_room_size(const std::string& text);

}  // namespace dapple
