#include "output/measure_text.h"

#include <algorithm>
#include <cmath>

#include "output/text_table.h"

namespace dapple {

namespace {

// The error keeps one digit.
int decimals_of(const Measure& measure, int most) {
    const std::optional<double> error = measure.shown_error();
    if (!error || !(*error > 0)) return most;
    return std::clamp(static_cast<int>(std::ceil(-std::log10(*error))), 0, most);
}

std::string with_error(const char* format, const Measure& measure, int most) {
    if (!measure) return "-";
    const int decimals = decimals_of(measure, most);
    // Rounded first, so that no -0 is printed.
    const double scale = std::pow(10.0, decimals);
    const double value = std::round(*measure * scale) / scale + 0.0;
    const std::string text = formatted(format, decimals, value);
    const std::optional<double> error = measure.shown_error();
    const bool shows = error && std::round(*error * scale) > 0;
    return shows ? text + " ± " + formatted("%.*f", decimals, *error) : text;
}

}  // namespace

std::string measure_text(const Measure& measure, int most) {
    return with_error("%.*f", measure, most);
}

std::string signed_text(const Measure& measure, int most) {
    return with_error("%+.*f", measure, most);
}

std::string share_text(const Measure& share) {
    if (!share) return "-";
    const bool small = *share < 0.0095 && *share > 0;
    Measure percent = share;
    *percent.value *= 100;
    if (percent.error) *percent.error *= 100;
    return measure_text(percent, small ? 2 : 0) + " %";
}

}  // namespace dapple
