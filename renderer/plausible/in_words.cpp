#include "plausible/in_words.h"

#include <cmath>
#include <cstdio>

namespace dapple {

namespace {

// The camera's level directions: to its right, and away from it.
struct LevelAxes {
    Vec3 right, away;
};

LevelAxes level_axes(const Camera& camera) {
    const Vec3& s = camera.frame.s;
    const Vec3 right = glm::normalize(Vec3(s.x, 0, s.z));
    return {right, glm::cross(Vec3(0, 1, 0), right)};
}

}  // namespace

std::string length_text(double metres) {
    char text[32];
    const double length = std::abs(metres);
    if (length < 0.00995) {
        std::snprintf(text, sizeof text, "%.0f mm", 1e3 * length);
    } else if (length < 0.995) {
        std::snprintf(text, sizeof text, "%.0f cm", 1e2 * length);
    } else {
        std::snprintf(text, sizeof text, length < 9.95 ? "%.1f m" : "%.0f m", length);
    }
    return text;
}

std::string fine_length_text(double metres) {
    char text[32];
    const double mm = std::round(1000 * std::abs(metres));
    if (mm < 10) {
        std::snprintf(text, sizeof text, "%.0f mm", mm);
    } else {
        std::snprintf(
            text, sizeof text, mm < 1000 ? "%g cm" : "%g m", mm / (mm < 1000 ? 10 : 1000));
    }
    return text;
}

std::string moved_text(const Field<Triple>& position, const Vec3& by) {
    Triple moved = position.value;
    for (int a = 0; a < 3; ++a) moved[static_cast<size_t>(a)] += static_cast<double>(by[a]);
    return "position = " + triple_text(moved);
}

std::string way_text(const Direction& way, const Camera& camera) {
    constexpr float kSine = 0.38F;  // of 22.5°
    if (std::abs(way.y) > 0.7F) return way.y > 0 ? "up" : "down";
    const LevelAxes axes = level_axes(camera);
    const float right = glm::dot(way, axes.right);
    const float away = glm::dot(way, axes.away);
    std::string text;
    if (std::abs(right) > kSine) text = right > 0 ? "to camera right" : "to camera left";
    if (std::abs(away) <= kSine) return text;
    if (!text.empty()) text += " and ";
    return text + (away > 0 ? "away from the camera" : "towards the camera");
}

}  // namespace dapple
