// Numbers as people write them: "1/60", "f/4", "50%", "1.2 m", "5'11\"", "3200 K".
//
// The key says which quantity a text must be and in which unit its number is stored: `_mm` at the
// end of a key means millimetres, so "3 cm" is 30. A text without a unit is in the key's own unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace dapple {

struct Quantity;

// The quantity of a key: "position" and "focus_m" are lengths, "dimmer" is a share.
const Quantity& quantity_of(std::string_view key);

// The number that the text means, in the key's unit; nothing if it means none. It is finite.
//
// Lengths may be sums ("6 ft 2 in"). Numbers may be fractions ("1/60", "5 1/2 ft"). A share may be
// in stops: "-1 stop" is 0.5.
std::optional<double> number_in_words(std::string_view text, const Quantity& quantity);

// How to write one: `4 or "f/4"`.
std::string example_of(const Quantity& quantity);

}  // namespace dapple
