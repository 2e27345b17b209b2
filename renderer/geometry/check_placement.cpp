#include "geometry/check_placement.h"

#include "math/sequences.h"
#include "math/warps.h"

namespace dapple {

namespace {

constexpr uint32_t kRays = 128;

std::string surface_name(const Scene& scene, MaterialId id) {
    return id == kNoMaterial ? "a surface"
                             : "\"" + scene.materials[static_cast<size_t>(id)].name + "\"";
}

// The first hit that is a surface; lamps and housings do not count.
bool first_surface(const World& world, MaterialId housing, Ray ray, SurfacePoint& at) {
    for (int i = 0; i < 16; ++i) {
        Hit hit;
        if (!world.closest(ray, hit)) return false;
        at = world.surface_at(ray, hit);
        if (at.lamp < 0 && at.material != housing) return true;
        ray.origin = offset_origin(at, ray.direction);
    }
    return false;
}

// Whether all rays around `centre` meet surfaces from behind; `at` is one of them.
bool is_enclosed(const Scene& scene, const World& world, const Point& centre, SurfacePoint& at) {
    for (uint32_t i = 0; i < kRays; ++i) {
        const auto u = sobol_owen_4d(i, 7);
        const Ray ray{centre, sample_sphere(u[0], u[1]), 0.0F, kInfinity};
        if (!first_surface(world, scene.housing_material, ray, at)) return false;
        if (glm::dot(at.geometric, ray.direction) <= 0.0F) return false;
    }
    return true;
}

// Whether a surface cuts the lamp: rays from its centre to its rim, within its own size.
bool is_cut(const Scene& scene, const World& world, const Fixture& f, SurfacePoint& at) {
    const Frame frame = looking_frame(f.axis);
    Vec2 half = Vec2(0.5F * f.source_diameter);
    if (f.form == FixtureForm::kPanel) half = 0.5F * f.panel_size;
    if (half.x <= 0.0F || half.y <= 0.0F) return false;
    for (int i = 0; i < 16; ++i) {
        const float angle = 2.0F * kPiF * static_cast<float>(i) / 16.0F;
        const Vec3 to = frame.s * (half.x * std::cos(angle)) + frame.t * (half.y * std::sin(angle));
        const float length = glm::length(to);
        // A hair in front of the lamp's face, so that the face itself is not met.
        const Ray ray{f.position + 1e-4F * f.axis, to / length, 0.0F, length};
        Hit hit;
        if (!world.closest(ray, hit)) continue;
        at = world.surface_at(ray, hit);
        if (at.lamp < 0 && at.material != scene.housing_material) return true;
    }
    return false;
}

}  // namespace

void check_placement(const Scene& scene, const World& world, Problems& problems) {
    SurfacePoint at;
    const bool camera_enclosed = is_enclosed(scene, world, scene.camera.position, at);
    for (const Fixture& f : scene.fixtures) {
        const std::string key = "fixture \"" + f.name + "\": position";
        if (is_cut(scene, world, f, at)) {
            problems.add(f.place,
                         key,
                         "the lamp is cut by " + surface_name(scene, at.material) +
                             "; move it clear of walls and things");
        } else if (!camera_enclosed && is_enclosed(scene, world, f.position, at)) {
            problems.add(f.place,
                         key,
                         "lies inside or behind " + surface_name(scene, at.material) +
                             "; a fixture must stand in the open");
        }
    }
}

}  // namespace dapple
