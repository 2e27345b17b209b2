#include "option_checks.h"

#include <charconv>
#include <cmath>
#include <string>

namespace dapple {

namespace {

// Returns false unless the whole text is a number of this kind.
template <typename Number>
bool parse(const std::string& text, Number& number) {
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    return error == std::errc() && stop == end;
}

}  // namespace

CLI::Validator whole_number(uint64_t low, uint64_t high) {
    const std::string range = std::to_string(low) + " to " + std::to_string(high);
    const auto check = [=](const std::string& text) -> std::string {
        uint64_t number = 0;
        if (parse(text, number) && number >= low && number <= high) return "";
        return "is " + text + "; must be a whole number from " + range;
    };
    return CLI::Validator(check, "");
}

CLI::Validator number_above_zero() {
    const auto check = [](const std::string& text) -> std::string {
        double number = 0;
        if (parse(text, number) && std::isfinite(number) && number > 0) return "";
        return "is " + text + "; must be a number above 0";
    };
    return CLI::Validator(check, "");
}

}  // namespace dapple
