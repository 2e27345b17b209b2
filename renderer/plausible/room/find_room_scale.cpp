#include "plausible/room/find_room_scale.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "math/sequences.h"
#include "math/warps.h"
#include "plausible/in_words.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kHighestRoom = 20;  // m
constexpr double kUsualHeight = 3;   // m
constexpr double kNoCeiling = 40;    // m, above a camera: higher than any nave
constexpr float kNearCamera = 8;     // m

struct Scale {
    double metres;
    const char* unit;
    const char* name;
};
constexpr std::array kScales = {Scale{0.01, "cm", "centimetres"},
                                Scale{0.001, "mm", "millimetres"},
                                Scale{0.0254, "in", "inches"},
                                Scale{0.3048, "ft", "feet"}};

bool is_like_a_room(const Vec3& size) {
    return size.y >= 1.8F && size.y <= static_cast<float>(kHighestRoom) && size.x >= 2 &&
           size.z >= 2 && size.x <= 100 && size.z <= 100;
}

// The units in which a room of this size in metres would be like one, the likeliest height first.
std::vector<Scale> scales_of(const Vec3& size) {
    std::vector<Scale> found;
    if (size.y <= static_cast<float>(kHighestRoom)) return found;
    for (const Scale& scale : kScales) {
        if (is_like_a_room(size * static_cast<float>(scale.metres))) found.push_back(scale);
    }
    const auto off = [&](const Scale& scale) {
        return std::abs(std::log(static_cast<double>(size.y) * scale.metres / kUsualHeight));
    };
    std::stable_sort(found.begin(), found.end(), [&](const Scale& a, const Scale& b) {
        return off(a) < off(b);
    });
    return found;
}

// Whether the ceiling above the camera is higher than any.
bool is_high_above(const StagedSet& set) {
    const Ray up{set.scene.camera.position, Vec3(0, 1, 0), 0, kInfinity};
    Hit hit;
    if (!set.world.closest(up, hit)) return false;
    const SurfacePoint at = set.world.surface_at(up, hit);
    return static_cast<double>(at.position.y - up.origin.y) > kNoCeiling;
}

// Whether the model has something beside a floor near the camera.
bool is_furnished_near(const StagedSet& set) {
    constexpr uint32_t kRays = 256;
    for (uint32_t i = 0; i < kRays; ++i) {
        const auto u = sobol_owen_4d(i, 11);
        const Ray ray{set.scene.camera.position, sample_sphere(u[0], u[1]), 0, kNearCamera};
        Hit hit;
        if (!set.world.closest(ray, hit)) continue;
        const SurfacePoint at = set.world.surface_at(ray, hit);
        const bool is_floor = ray.direction.y < 0 && std::abs(at.geometric.y) > 0.98F;
        if (set.world.thing_at(at).kind == ThingKind::kRoom && !is_floor) return true;
    }
    return false;
}

std::string size_text(const Vec3& size) {
    return number_text(size.x) + " x " + number_text(size.z) + " m and " + number_text(size.y) +
           " m high";
}

// "2.6 m high"
std::string height_text(double metres) {
    return number_text(std::round(10 * metres) / 10) + " m high";
}

}  // namespace

Doubts find_room_scale(const StagedSet& set) {
    const RoomDescription& room = set.written.room;
    if (set.scene.room.empty()) return {};
    Bounds bounds;
    for (const Mesh& mesh : set.scene.room) {
        for (const Point& p : mesh.positions) bounds.add(p);
    }
    const Vec3 size = bounds.high - bounds.low;
    const std::vector<Scale> scales = scales_of(size);
    if (scales.empty()) return {};
    const std::string is = "the room is " + size_text(size) + "; this looks like ";
    if (room.size_m.given) {
        const Scale& scale = scales.front();
        Triple metres = room.size_m.value;
        for (double& x : metres) x = std::round(1e6 * x * scale.metres) / 1e6;
        return {
            doubt_at(room.size_m,
                     is + scale.name + ", and size_m is in metres: size_m = " + triple_text(metres),
                     true)};
    }
    const bool shows_size = !set.scene.stand_ins.empty() && is_high_above(set);
    if (!shows_size && is_furnished_near(set)) return {};
    std::string names;
    std::string units;
    for (const Scale& scale : scales) {
        names += (names.empty() ? "" : " or ") + std::string(scale.name);
        units += (units.empty() ? "unit = \"" : " or unit = \"") + std::string(scale.unit) +
                 "\" (" + height_text(size.y * scale.metres) + ")";
    }
    const bool has_unit = room.units.unit.written;
    return {make_doubt(has_unit ? room.units.unit.place : room.model.place,
                       has_unit ? room.units.unit.key : room.model.key,
                       is + names + ": " + units,
                       true)};
}

}  // namespace dapple
