#include "render/in_frame/find_props.h"

#include "render/packing/column_under.h"

namespace dapple {

namespace {

constexpr int kMostPassed = 32;          // own surfaces on the way down
constexpr float kBeyondSurface = 1e-5F;  // m, beyond a surface

// Whether the thing carries what stands on it.
bool carries(const Scene& scene, const Thing& thing) {
    if (thing.kind == ThingKind::kRoom || thing.kind == ThingKind::kColumn) return true;
    return thing.kind == ThingKind::kBoard &&
           scene.boards[static_cast<size_t>(thing.index)].kind != BoardKind::kDiffuser;
}

bool stands_on_something(const Scene& scene, const World& world, const Thing& glass) {
    Bounds bounds;
    for (const Point& corner : world.corners_of(glass)) bounds.add(corner);
    if (!(bounds.low.y <= bounds.high.y)) return false;
    const Point middle = bounds.centre();
    const Point from(middle.x, bounds.low.y + kStandsOn, middle.z);
    Ray ray{from, Vec3(0, -1, 0), 0.0F, 2 * kStandsOn};
    Hit hit;
    for (int i = 0; i < kMostPassed && world.closest(ray, hit); ++i) {
        const SurfacePoint at = world.surface_at(ray, hit);
        const Thing thing = world.thing_at(at);
        if (thing != glass) return carries(scene, thing);
        ray.t_min = glm::length(at.position - from) + kBeyondSurface;
    }
    return false;
}

}  // namespace

std::vector<bool> find_props(const Scene& scene, const World& world) {
    std::vector<bool> props;
    for (size_t i = 0; i < scene.glasses.size(); ++i) {
        const Thing glass{ThingKind::kGlass, static_cast<int>(i)};
        props.push_back(stands_on_something(scene, world, glass));
    }
    return props;
}

}  // namespace dapple
