#include "variants/search/search_space.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace dapple {

namespace {

// With a decimal point, so that a key that holds metres still does: "0.46", "1.0".
std::string decimal_text(double value, int decimals) {
    std::array<char, 64> number{};
    std::snprintf(number.data(), number.size(), "%.*f", decimals, value);
    std::string text = number.data();
    if (decimals == 0) return text + ".0";
    while (text.back() == '0' && text[text.size() - 2] != '.') text.pop_back();
    return text == "-0.0" ? "0.0" : text;
}

// Decimals that show a thousandth of the range.
int decimals_for_range(double from, double to) {
    const double step = std::abs(to - from) / 1000;
    if (!(step > 0)) return 6;
    return std::clamp(static_cast<int>(std::ceil(-std::log10(step))), 0, 9);
}

double between(double from, double to, double u) {
    return from + u * (to - from);
}

bool varies(const PlaceBounds& place, size_t axis) {
    return place.from[axis] != place.to[axis];
}

}  // namespace

size_t SearchSpace::dimensions() const {
    size_t count = keys.size();
    if (!place) return count;
    if (place->is_line) return count + 1;
    for (size_t axis = 0; axis < 3; ++axis) count += varies(*place, axis) ? 1 : 0;
    return count;
}

std::vector<SetChange> SearchSpace::changes_at(const std::vector<double>& u) const {
    std::vector<SetChange> changes;
    size_t at = 0;
    if (place) {
        const double along = place->is_line ? u[at++] : 0;
        std::string text;
        for (size_t axis = 0; axis < 3; ++axis) {
            const double share = place->is_line ? along : varies(*place, axis) ? u[at++] : 0;
            text += (axis == 0 ? "" : ", ") +
                    decimal_text(between(place->from[axis], place->to[axis], share), 3);
        }
        changes.push_back({address + ".position", "[" + text + "]", {}});
    }
    for (const KeyBounds& key : keys) {
        const int decimals = decimals_for_range(key.from, key.to);
        changes.push_back({address + "." + key.key,
                           decimal_text(between(key.from, key.to, u[at++]), decimals),
                           {}});
    }
    return changes;
}

}  // namespace dapple
