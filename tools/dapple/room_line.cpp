#include "room_line.h"

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scene/checks.h"

namespace dapple {

namespace {

std::optional<Bounds> box_of_model(const LoadedSet& set) {
    if (!set.written.room.model.given || set.scene.room.empty()) return std::nullopt;
    Bounds box;
    for (const Mesh& mesh : set.scene.room) {
        for (const Point& p : mesh.positions) box.add(p);
    }
    return box;
}

std::string centimetres_text(float metres) {
    return number_text(std::round(100.0 * static_cast<double>(metres)) / 100);
}

std::array<double, 3> corner_json(const Point& p) {
    return {static_cast<double>(p.x), static_cast<double>(p.y), static_cast<double>(p.z)};
}

}  // namespace

std::string room_line(const LoadedSet& set) {
    const std::optional<Bounds> box = box_of_model(set);
    if (!box) return "";
    const auto range = [&](const char* axis, int a) {
        return axis + (" from " + centimetres_text(box->low[a])) + " to " +
               centimetres_text(box->high[a]);
    };
    const Vec3 size = box->high - box->low;
    return "model \"" + set.written.room.model.value + "\": " + range("x", 0) + ", " +
           range("y (up)", 1) + ", " + range("z", 2) + ": " + centimetres_text(size.x) + " x " +
           centimetres_text(size.z) + " m and " + centimetres_text(size.y) + " m high\n";
}

nlohmann::json room_json(const LoadedSet& set) {
    const std::optional<Bounds> box = box_of_model(set);
    if (!box) return nullptr;
    return {{"low", corner_json(box->low)}, {"high", corner_json(box->high)}};
}

}  // namespace dapple
