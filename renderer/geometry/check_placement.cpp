#include "geometry/check_placement.h"

#include "base/parallel.h"
#include "geometry/surfaces_past_fixtures.h"
#include "math/sequences.h"
#include "math/warps.h"

namespace dapple {

namespace {

constexpr uint32_t kRays = 128;

std::string surface_name(const Scene& scene, MaterialId id) {
    return id == kNoMaterial ? "a surface"
                             : "\"" + scene.materials[static_cast<size_t>(id)].name + "\"";
}

std::string hit_name(const Scene& scene, const SurfacePoint& at) {
    return at.lamp < 0
               ? surface_name(scene, at.material)
               : "the lamp of \"" + scene.fixtures[static_cast<size_t>(at.lamp)].name + "\"";
}

// Which surfaces count. A lamp stands in its own housing, so that for a lamp no fixture counts.
enum class Counting { kAllButFixtures, kEverything };

bool counts(const Scene& scene, Counting counting, const SurfacePoint& at) {
    return counting == Counting::kEverything || !is_of_fixture(scene, at);
}

bool closest_counting(
    const Scene& scene, const World& world, Counting counting, const Ray& ray, SurfacePoint& at) {
    if (counting == Counting::kAllButFixtures) {
        return closest_past_fixtures(scene, world, ray, at);
    }
    Hit hit;
    if (!world.closest(ray, hit)) return false;
    at = world.surface_at(ray, hit);
    return true;
}

// Whether all rays around `centre` meet surfaces from behind; `at` is one of them.
bool is_enclosed(const Scene& scene,
                 const World& world,
                 Counting counting,
                 const Point& centre,
                 SurfacePoint& at) {
    for (uint32_t i = 0; i < kRays; ++i) {
        const auto u = sobol_owen_4d(i, 7);
        const Ray ray{centre, sample_sphere(u[0], u[1]), 0.0F, kInfinity};
        if (!closest_counting(scene, world, counting, ray, at)) return false;
        if (glm::dot(at.geometric, ray.direction) <= 0.0F) return false;
    }
    return true;
}

// A flat ellipse.
struct Ellipse {
    Point centre{0};
    Frame frame;
    Vec2 half_axes{0};  // m, along the frame's s and t
};

// Whether a surface cuts the ellipse: 16 rays from its centre to its rim.
bool is_cut(const Scene& scene,
            const World& world,
            Counting counting,
            const Ellipse& ellipse,
            SurfacePoint& at) {
    const Vec2& half = ellipse.half_axes;
    if (half.x <= 0.0F || half.y <= 0.0F) return false;
    for (int i = 0; i < 16; ++i) {
        const float angle = 2.0F * kPiF * static_cast<float>(i) / 16.0F;
        const Vec3 to = ellipse.frame.s * (half.x * std::cos(angle)) +
                        ellipse.frame.t * (half.y * std::sin(angle));
        const float length = glm::length(to);
        const Ray ray{ellipse.centre, to / length, 0.0F, length};
        Hit hit;
        if (!world.closest(ray, hit)) continue;
        at = world.surface_at(ray, hit);
        if (counts(scene, counting, at)) return true;
    }
    return false;
}

bool lamp_is_cut(const Scene& scene, const World& world, const Fixture& f, SurfacePoint& at) {
    const Vec2 half =
        f.form == FixtureForm::kPanel ? 0.5F * f.panel_size : Vec2(0.5F * f.source_diameter);
    // 0.1 mm in front of the lamp's face, so that the rays do not meet the face itself.
    const Point centre = f.position + 1e-4F * f.axis;
    const Ellipse face{centre, fixture_frame(f), half};
    return is_cut(scene, world, Counting::kAllButFixtures, face, at);
}

// Whether a surface is within a tenth of a millimetre of the point: three short rays through it.
bool is_on_surface(const World& world, const Point& p, const Frame& frame, SurfacePoint& at) {
    constexpr float kNear = 1e-4F;  // m
    for (const Direction& d : {frame.n, frame.s, frame.t}) {
        const Ray ray{p - kNear * d, d, 0.0F, 2 * kNear};
        Hit hit;
        if (!world.closest(ray, hit)) continue;
        at = world.surface_at(ray, hit);
        return true;
    }
    return false;
}

void check_meter(const Scene& scene,
                 const World& world,
                 const Meter& meter,
                 bool camera_enclosed,
                 Problems& problems) {
    const std::string key = "meter \"" + meter.name + "\": position";
    const Frame frame = looking_frame(meter.facing);
    const Ellipse receptor{
        meter.position, frame, 0.5F * (meter.size.x > 0 ? meter.size : Vec2(meter.diameter))};
    SurfacePoint at;
    if (is_on_surface(world, meter.position, frame, at)) {
        problems.add(
            meter.place,
            key,
            "lies on " + hit_name(scene, at) + "; move it a millimetre or more towards the light");
    } else if (is_cut(scene, world, Counting::kEverything, receptor, at)) {
        problems.add(
            meter.place,
            key,
            "the receptor is cut by " + hit_name(scene, at) + "; move it clear or make it smaller");
    } else if (!camera_enclosed &&
               is_enclosed(scene, world, Counting::kEverything, meter.position, at)) {
        problems.add(
            meter.place,
            key,
            "lies inside or behind " + hit_name(scene, at) + "; a meter must stand in the open");
    }
}

}  // namespace

void check_placement(const Scene& scene, const World& world, Problems& problems) {
    SurfacePoint at;
    const bool camera_enclosed =
        is_enclosed(scene, world, Counting::kAllButFixtures, scene.camera.position, at);
    for (const Fixture& f : scene.fixtures) {
        stop_if_asked();
        const std::string key = "fixture \"" + f.name + "\": position";
        // Bars and frames may cross a window.
        if (!f.is_window && lamp_is_cut(scene, world, f, at)) {
            problems.add(f.place,
                         key,
                         "the lamp is cut by " + surface_name(scene, at.material) +
                             "; move it clear of walls and things");
        } else if (!camera_enclosed &&
                   is_enclosed(scene, world, Counting::kAllButFixtures, f.position, at)) {
            problems.add(f.place,
                         key,
                         "lies inside or behind " + surface_name(scene, at.material) +
                             "; a fixture must stand in the open");
        }
    }
    for (const Meter& meter : scene.meters) {
        stop_if_asked();
        check_meter(scene, world, meter, camera_enclosed, problems);
    }
}

}  // namespace dapple
