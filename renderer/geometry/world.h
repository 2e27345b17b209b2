// The scene as rays meet it: every mesh (the room's, made glassware, boards, housings), the lamps'
// faces, and the ray tracing kernels' scenes over them. Nothing outside this folder includes
// Embree.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "geometry/surface_point.h"
#include "geometry/thing.h"
#include "math/four.h"
#include "scene/scene.h"

namespace dapple {

// One triangle of cloth or another thin sheet.
struct SheetTriangle {
    uint32_t body = 0;
    uint32_t triangle = 0;  // of the body
    Point a{0}, b{0}, c{0};
    MaterialId material = kNoMaterial;
};

// The rays of all queries in order, to time the ray tracing kernels alone.
struct RayLog {
    std::vector<Ray> rays;
    std::vector<bool> is_shadow;  // whether the query was blocked(), not closest()
};

enum class WorldUse {
    kStill,
    kChanging,  // quick to change; hits can differ in their last bits from those of kStill
};

class World {
  public:
    // Throws StoppedWork if the thread's StopLoops stops it.
    explicit World(const Scene& scene, WorldUse use = WorldUse::kStill);
    ~World();
    World(World&&) noexcept;
    World& operator=(World&&) noexcept;

    // Only of kChanging: becomes the world of this scene. Bodies that are the same keep their
    // trees. Returns the number of the others. Throws StoppedWork as the constructor does; then the
    // world must change again before its next query.
    int change_to(const Scene& scene);

    // Bounds of each part that the last change moved, put in or took out, before and after it. A
    // ray that meets none of them finds the same as before.
    const std::vector<Bounds>& changed_bounds() const;

    // The first hit along the ray within [t_min, t_max].
    bool closest(const Ray& ray, Hit& hit) const;
    // Whether the ray meets anything that is not see-through within [t_min, t_max].
    bool blocked(const Ray& ray) const;
    // The first see-through surface along the ray. An unblocked connection between two points must
    // be multiplied by what each of these lets pass.
    bool closest_see_through(const Ray& ray, Hit& hit) const;

    // The material of the surface that was hit; kNoMaterial for a lamp's face. Costs less than
    // surface_at().
    MaterialId material_at(const Hit& hit) const;
    // What the surface belongs to.
    Thing thing_at(const SurfacePoint& at) const;
    // Where a ray continues behind a surface that does not change it. Like offset_origin(), but
    // needs no surface point.
    Point origin_behind(const Ray& ray, const Hit& hit) const;

    SurfacePoint surface_at(const Ray& ray, const Hit& hit) const {
        SurfacePoint at;
        surface_at(ray, hit, at);
        return at;
    }
    void surface_at(const Ray& ray, const Hit& hit, SurfacePoint& at) const;
    // How the interpolated normal turns when the point moves by each of the steps, which lie in the
    // plane of its triangle.
    FourVectors normal_changes(const SurfacePoint& at, const FourVectors& steps) const;

    const Bounds& bounds() const;
    // Bounds of each thing that throws light in patterns (glass objects, glass and mirrors of
    // models), and of each diffuser; used to aim light walks.
    const std::vector<Bounds>& broken_beam_bounds() const;
    const std::vector<Bounds>& diffuser_bounds() const;
    int64_t triangles() const;
    // The corners of every triangle of a thing, three for each. A lamp's face has none.
    std::vector<Point> corners_of(const Thing& thing) const;
    // Every triangle of a sheet.
    const std::vector<SheetTriangle>& sheets() const;

    // Appends the rays of all later queries to `log`; nullptr stops that. While it is on, only one
    // thread may make queries.
    void record(RayLog* log);

    // Embree 3 or 4, for reports.
    static const char* backend();

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

// Whether light can pass a surface of this material unscattered and unbent.
bool is_see_through(const Material& material);

}  // namespace dapple
