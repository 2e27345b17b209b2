#include "scene/room/likely_place.h"

#include <array>
#include <cmath>
#include <utility>

#include "scene/checks.h"

namespace dapple {

namespace {

constexpr std::array kAxisNames = {"x", "y", "z"};

bool is_within(const Triple& t, const Bounds& box, size_t axis) {
    const int a = static_cast<int>(axis);
    return t[axis] >= static_cast<double>(box.low[a]) &&
           t[axis] <= static_cast<double>(box.high[a]);
}

bool holds(const Bounds& box, const Triple& t) {
    return is_within(t, box, 0) && is_within(t, box, 1) && is_within(t, box, 2);
}

// Whether the coordinate is so far outside that it can hardly be a wall that was measured wrongly.
bool is_far_out(const Triple& t, const Bounds& box, size_t axis) {
    const int a = static_cast<int>(axis);
    const float beyond = 0.2F * (box.high[a] - box.low[a]);
    const auto x = static_cast<float>(t[axis]);
    return x < box.low[a] - beyond || x > box.high[a] + beyond;
}

// Those who think of z as up exchange height and depth; only a height that cannot be says so.
// Otherwise x and z are exchanged, which a position far outside says.
std::string exchanged_text(const Triple& written, const Bounds& box) {
    for (const auto& [a, b] : {std::pair<size_t, size_t>{1, 2}, {1, 0}, {0, 2}}) {
        const bool is_likely = a == 1 ? !is_within(written, box, 1)
                                      : is_far_out(written, box, a) || is_far_out(written, box, b);
        if (!is_likely) continue;
        Triple exchanged = written;
        std::swap(exchanged[a], exchanged[b]);
        if (!holds(box, exchanged)) continue;
        return std::string("; with ") + kAxisNames[a] + " and " + kAxisNames[b] +
               " exchanged it would be inside: position = " + triple_text(exchanged) +
               (a == 1 ? " (y is up)" : "");
    }
    return "";
}

}  // namespace

std::string triple_text(const Triple& value) {
    std::string text;
    for (const double x : value) {
        const double rounded = std::round(1e3 * x) / 1e3;
        text += (text.empty() ? "[" : ", ") + number_text(rounded == 0 ? 0.0 : rounded);
    }
    return text + "]";
}

std::string likely_place_text(const Triple& written, const Bounds& box) {
    const std::string exchanged = exchanged_text(written, box);
    if (!exchanged.empty()) return exchanged;
    for (const double unit : {100.0, 1000.0}) {
        Triple metres = written;
        double farthest = 0;
        for (double& x : metres) {
            farthest = std::max(farthest, std::abs(x));
            x /= unit;
        }
        // Whoever writes centimetres writes tens of them.
        if (farthest < 0.2 * unit || !holds(box, metres)) continue;
        return "; positions are in metres: position = " + triple_text(metres);
    }
    return "";
}

}  // namespace dapple
