#include "base/number_words.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace dapple {

std::string round_number(double value, int digits) {
    std::array<char, 64> text{};
    double rounded = value;
    if (value != 0 && std::isfinite(value)) {
        const double step = std::pow(10.0, std::floor(std::log10(std::abs(value))) + 1 - digits);
        rounded = step >= 1 ? std::round(value / step) * step : value;
    }
    if (!(std::abs(rounded) >= 1000) || !(std::abs(rounded) < 1e18)) {
        std::snprintf(text.data(), text.size(), "%.*g", digits, rounded);
        return text.data();
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
