#include "scene/checks.h"

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "base/units.h"

namespace dapple {

namespace {

constexpr double kFarthest = 1e5;  // m; at this distance floats are exact to 1 cm

}  // namespace

std::string number_text(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.6g", value + 0.0);  // no -0
    return text;
}

void add_problem(const Field<double>& field, const std::string& allowed, Problems& problems) {
    problems.add(field.place, field.key, "is " + number_text(field.value) + "; must be " + allowed);
}

double checked_range(
    const Field<double>& field, double fallback, double low, double high, Problems& problems) {
    if (!field.given) return fallback;
    if (field.value >= low && field.value <= high) return field.value;
    add_problem(field, "from " + number_text(low) + " to " + number_text(high), problems);
    return fallback;
}

double checked_positive(const Field<double>& field,
                        double fallback,
                        double high,
                        Problems& problems) {
    if (!field.given) return fallback;
    if (field.value > 0 && field.value <= high) return field.value;
    add_problem(field, "above 0, up to " + number_text(high), problems);
    return fallback;
}

float checked_radians(
    const Field<double>& degrees, double fallback, double low, double high, Problems& problems) {
    return static_cast<float>(
        radians_from_degrees(checked_range(degrees, fallback, low, high, problems)));
}

float checked_metres(const Field<double>& mm,
                     double fallback_m,
                     double high_mm,
                     Problems& problems) {
    return static_cast<float>(
        metres_from_mm(checked_positive(mm, 1e3 * fallback_m, high_mm, problems)));
}

int checked_whole(
    const Field<int64_t>& field, int fallback, int low, int high, Problems& problems) {
    if (!field.given) return fallback;
    if (field.value >= low && field.value <= high) return static_cast<int>(field.value);
    problems.add(field.place,
                 field.key,
                 "is " + std::to_string(field.value) + "; must be from " + std::to_string(low) +
                     " to " + std::to_string(high));
    return fallback;
}

Vec2 checked_size(const Field<Pair>& field, const Vec2& fallback, double high, Problems& problems) {
    if (!field.given) return fallback;
    for (const double length : field.value) {
        if (length > 0 && length <= high) continue;
        problems.add(
            field.place,
            field.key,
            "has " + number_text(length) + "; both must be above 0, up to " + number_text(high));
        return fallback;
    }
    return Vec2(field.value[0], field.value[1]);
}

Rgb checked_colour(const Field<Triple>& field,
                   const Rgb& fallback,
                   double high,
                   Problems& problems) {
    if (!field.given) return fallback;
    for (const double channel : field.value) {
        if (channel >= 0 && channel <= high) continue;
        problems.add(field.place,
                     field.key,
                     "has " + number_text(channel) + "; must be from 0 to " + number_text(high));
        return fallback;
    }
    return Rgb(field.value[0], field.value[1], field.value[2]);
}

Point checked_point(const Field<Triple>& field, Problems& problems) {
    if (!check_written(field, "give [x, y, z] in metres", problems)) return Point(0);
    for (const double x : field.value) {
        if (std::abs(x) <= kFarthest) continue;
        problems.add(field.place,
                     field.key,
                     "has " + number_text(x) + "; must be within " + number_text(kFarthest) + " m");
        return Point(0);
    }
    return Point(field.value[0], field.value[1], field.value[2]);
}

Direction checked_aim(const Field<Triple>& aim,
                      const Field<Triple>& position,
                      const std::string& what,
                      Problems& problems) {
    const Direction fallback(0, 0, -1);
    const Point to = checked_point(aim, problems);
    if (!aim.given || !position.given) return fallback;
    const Vec3 way = to - Point(position.value[0], position.value[1], position.value[2]);
    if (glm::length(way) > 1e-6F) return glm::normalize(way);
    problems.add(aim.place, aim.key, "equals the position: " + what + " nowhere");
    return fallback;
}

std::string path_named_by(const Field<std::string>& key) {
    const std::filesystem::path file(key.kit_file.empty() ? key.place.file : key.kit_file);
    return (file.parent_path() / key.value).lexically_normal().string();
}

bool check_exists(const Field<std::string>& key, Problems& problems) {
    std::error_code error;
    if (std::filesystem::exists(path_named_by(key), error)) return true;
    problems.add(key.place, key.key, "is \"" + key.value + "\"; there is no such file");
    return false;
}

std::string name_or_label(const Field<std::string>& name, const TableDescription& table) {
    return name.given ? name.value : table.label;
}

}  // namespace dapple
