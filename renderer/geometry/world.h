// The scene as rays meet it. Owns every mesh (the room's, made glassware, boards, housings) and
// the Embree scenes over them; nothing outside this folder knows Embree.
//
// Bodies: a triangle mesh with materials, or the face of a lamp. Lamp faces are exact discs,
// spheres and rectangles. Two Embree scenes share the bodies: one holds everything, the other
// leaves out what light can pass straight through (cloth with open weave, window panes, cut-outs),
// so that most shadow rays end after one query.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "math/four.h"
#include "scene/scene.h"

namespace dapple {

struct Hit {
    float t = kInfinity;
    uint32_t body = 0;
    uint32_t triangle = 0;
    float u = 0, v = 0;
    Vec3 normal{0};  // geometric, not unit length; to the outer side
};

// Where a ray met a body.
struct SurfacePoint {
    Point position{0};
    Normal geometric{0, 0, 1};  // outer side of the surface as its mesh is wound
    Normal shading{0, 0, 1};    // interpolated, on the same side
    Vec2 uv{0};
    MaterialId material = kNoMaterial;
    int lamp = -1;   // index of the fixture whose lamp face this is; -1: a surface
    int sheet = -1;  // into World::sheets(); -1: no sheet
    float distance = 0;
    uint32_t facet = ~0U;  // the triangle where it was met, of the whole world
    Vec2 barycentric{0};   // in it, of its second and third corner
    float rounds_at = 0;   // m, the largest coordinate that its place was reckoned from
};

// One triangle of cloth or another thin sheet.
struct SheetTriangle {
    uint32_t body = 0;
    uint32_t triangle = 0;  // of its body
    Point a{0}, b{0}, c{0};
    MaterialId material = kNoMaterial;
};

// Rays in the order in which they were asked for, to time the ray tracing kernels alone.
struct RayLog {
    std::vector<Ray> rays;
    std::vector<bool> is_shadow;  // whether blocked() asked, not closest()
};

class World {
  public:
    explicit World(const Scene& scene);
    ~World();
    World(World&&) noexcept;
    World& operator=(World&&) noexcept;

    // The first hit along the ray within [t_min, t_max].
    bool closest(const Ray& ray, Hit& hit) const;
    // Whether anything that light cannot pass straight through lies within [t_min, t_max].
    bool blocked(const Ray& ray) const;
    // The first hit of what light can pass straight through: what an unblocked connection must
    // still be walked for.
    bool closest_see_through(const Ray& ray, Hit& hit) const;

    // Of the surface that was hit; kNoMaterial for a lamp's face. Costs less than surface_at().
    MaterialId material_at(const Hit& hit) const;
    // Where a ray goes on that the surface does nothing to: as offset_origin(), without its point.
    Point origin_behind(const Ray& ray, const Hit& hit) const;

    SurfacePoint surface_at(const Ray& ray, const Hit& hit) const {
        SurfacePoint at;
        surface_at(ray, hit, at);
        return at;
    }
    void surface_at(const Ray& ray, const Hit& hit, SurfacePoint& at) const;
    // How the interpolated normal turns when the point moves by each of the steps in its triangle's
    // plane.
    FourVectors normal_changes(const SurfacePoint& at, const FourVectors& steps) const;

    const Bounds& bounds() const;
    // World bounds of all that throws light in patterns, glass objects, glass of models and
    // mirrors, and of each diffuser; for aiming budgets.
    const std::vector<Bounds>& broken_beam_bounds() const;
    const std::vector<Bounds>& diffuser_bounds() const;
    int64_t triangles() const;
    // Every triangle of a sheet.
    const std::vector<SheetTriangle>& sheets() const;

    // From now on every ray is put down; nullptr: no more. For one thread at a time.
    void record(RayLog* log);

    // Embree 3 or 4 and its version, for reports.
    static const char* backend();

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

// Whether light can pass a surface of this material unscattered and unbent.
bool is_see_through(const Material& material);

// A point just off the surface on the side that `direction` leaves to, far enough for a ray to
// escape it: the offset grows with the coordinates' rounding, the triangle's own included.
Point offset_origin(const SurfacePoint& at, const Direction& direction);

}  // namespace dapple
