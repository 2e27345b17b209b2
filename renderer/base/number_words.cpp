#include "base/number_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace dapple {

namespace {

constexpr int kMostDecimals = 12;

// Without zeros at the end.
std::string with_decimals(double value, int decimals) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
    std::string number = text.data();
    if (decimals > 0) number.erase(number.find_last_not_of('0') + 1);
    if (number.ends_with('.')) number.pop_back();
    return number == "-0" ? "0" : number;
}

}  // namespace

std::string round_number(double value, int digits) {
    std::array<char, 64> text{};
    if (value == 0 || !std::isfinite(value) || std::abs(value) >= 1e18) {
        std::snprintf(text.data(), text.size(), "%.*g", digits, value);
        return text.data();
    }
    const int first_digit = static_cast<int>(std::floor(std::log10(std::abs(value))));
    const double step = std::pow(10.0, first_digit + 1 - digits);
    const double rounded = step >= 1 ? std::round(value / step) * step : value;
    if (std::abs(rounded) < 1000) {
        return with_decimals(rounded, std::clamp(digits - 1 - first_digit, 0, kMostDecimals));
    }
    std::snprintf(text.data(), text.size(), "%.0f", rounded);
    std::string number = text.data();
    const size_t first = value < 0 ? 1 : 0;
    for (size_t at = number.size(); at > first + 3;) {
        at -= 3;
        number.insert(at, " ");
    }
    return number;
}

std::string signed_number(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double rounded = std::round(value * scale) / scale;
    std::array<char, 64> text{};
    std::snprintf(
        text.data(), text.size(), rounded == 0 ? "%.*f" : "%+.*f", decimals, rounded + 0.0);
    return text.data();
}

}  // namespace dapple
