#include "plausible/room/find_room_scale.h"

#include "math/sequences.h"
#include "math/warps.h"
#include "plausible/in_words.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kHighestRoom = 20;  // m
constexpr float kNearCamera = 8;     // m

struct Scale {
    double units_per_metre;
    const char* unit;
    const char* name;
};
constexpr std::array kScales = {Scale{100, "cm", "centimetres"}, Scale{1000, "mm", "millimetres"}};

bool is_like_a_room(const Vec3& size) {
    return size.y >= 1.8F && size.y <= static_cast<float>(kHighestRoom) && size.x >= 2 &&
           size.z >= 2 && size.x <= 100 && size.z <= 100;
}

// The unit in which a room of this size in metres would be like one.
const Scale* scale_of(const Vec3& size) {
    if (size.y <= static_cast<float>(kHighestRoom)) return nullptr;
    for (const Scale& scale : kScales) {
        if (is_like_a_room(size / static_cast<float>(scale.units_per_metre))) return &scale;
    }
    return nullptr;
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

}  // namespace

Doubts find_room_scale(const StagedSet& set) {
    const RoomDescription& room = set.written.room;
    if (set.scene.room.empty()) return {};
    Bounds bounds;
    for (const Mesh& mesh : set.scene.room) {
        for (const Point& p : mesh.positions) bounds.add(p);
    }
    const Vec3 size = bounds.high - bounds.low;
    const Scale* scale = scale_of(size);
    if (scale == nullptr) return {};
    const std::string is = "the room is " + size_text(size) + "; this looks like " + scale->name;
    if (room.size_m.given) {
        Triple metres = room.size_m.value;
        for (double& x : metres) x /= scale->units_per_metre;
        return {doubt_at(
            room.size_m, is + ", and size_m is in metres: size_m = " + triple_text(metres), true)};
    }
    if (is_furnished_near(set)) return {};
    const bool has_unit = room.units.unit.written;
    return {make_doubt(has_unit ? room.units.unit.place : room.model.place,
                       has_unit ? room.units.unit.key : room.model.key,
                       is + ": unit = \"" + scale->unit + "\"",
                       true)};
}

}  // namespace dapple
