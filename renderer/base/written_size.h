// The sides of a room, a cloth or a table as people write them down from a tape.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace dapple {

// `sides` lengths in metres; nothing if the text is not so many lengths. They are parted by x, ×,
// *, "by", commas, semicolons or blanks. A unit at the end counts for all that have none:
// "9 12 4", "8 x 12 x 4 m", "9,5 x 12 x 4", "26 ft x 40 ft x 12 ft 6 in", "26' 40' 12'6\"",
// "90 x 60 cm".
std::optional<std::vector<double>> size_in_words(const std::string& text, size_t sides);

}  // namespace dapple
