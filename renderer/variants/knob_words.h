// Addresses and measures in words: "glass.ribbed jar.turn_deg" is "ribbed jar turn", its 7.5
// "7.5°".
#pragma once

#include <optional>
#include <string>

namespace dapple {

std::string words_for_address(const std::string& address);

// The same for an address that has this value, as TOML writes it: where whole things are swapped,
// "ribbed jar swap".
std::string words_for_knob(const std::string& address, const std::string& value);

// A change in words: "ribbed jar turn 7.5°", "ribbed jar → bottle-amber".
std::string words_for_change(const std::string& address, const std::string& value);

// A value, as TOML writes it, with the unit that the address ends in.
std::string words_for_level(const std::string& address, const std::string& value);

// A measure of a region, a meter or the frame.
struct MeasureWords {
    std::string name;  // "back wall texture"
    std::string unit;  // "stops", "cd/m²", "%"; "" for a plain number
    std::string more;  // what a variant with more of it is: "more broken up"
    std::string less;
    double scale = 1;  // its figure in that unit for the value 1
};
MeasureWords words_for_measure(const std::string& measure);

// "0.677 ± 0.005": the error with one digit, or two if the first is 1, and the value to the same
// place, but with at most four digits; a smaller error is then "< 0.001". Without an error, or with
// none that is above 0, three digits of the value.
std::string figure_text(double value, std::optional<double> error);

}  // namespace dapple
