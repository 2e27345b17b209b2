// The bodies as the ray tracing kernels (Embree) hold them, and the queries of the kernels.
//
// See-through is what light can pass unscattered and unbent: cloth with an open weave, window
// panes, cut-outs. One scene holds all bodies. A second one holds the opaque bodies alone, so that
// most shadow rays end after one query. A third one holds the see-through bodies alone. Lamp faces
// are in none of them (lamp_faces.h).
//
// For a world that changes (WorldUse::kChanging) each body has a tree of its own, below a small
// tree of all bodies, so only bodies that have changed get new trees. There is no scene of all
// bodies then: a ray is traced through the opaque ones and, as far as that, through the others.
// Hits can differ in their last bits from those of the other kind of trees.
#pragma once

#include <vector>

#include "geometry/embree_api.h"
#include "geometry/lamp_faces.h"
#include "geometry/surface_point.h"
#include "geometry/world.h"

namespace dapple {

class KernelScenes {
  public:
    explicit KernelScenes(WorldUse use);
    ~KernelScenes();
    KernelScenes(const KernelScenes&) = delete;
    KernelScenes& operator=(const KernelScenes&) = delete;

    // Adds the triangles `picked` of the mesh as body number `body`.
    void add_triangles(uint32_t body,
                       const Mesh& mesh,
                       const std::vector<uint32_t>& picked,
                       bool see_through);
    // In a world that changes: the body is as it was at the commit before.
    void keep(uint32_t body) {
        attached_[body].is_present = true;
        any_see_through_ = any_see_through_ || attached_[body].see_through;
    }
    bool is_changing() const { return is_changing_; }
    // Adds the lamp's face as body number `body`. False: the lamp is a point, which no ray meets.
    bool add_lamp_face(uint32_t body, const Fixture& fixture) {
        return lamp_faces_.add(body, fixture);
    }
    // Call after all bodies have been added and before the first query. Throws StoppedWork if the
    // thread's StopLoops stops it; in a world that changes it is not stopped.
    void commit();
    // In a world that changes: all bodies are now added again, the same ones under their numbers.
    void begin_again();
    // In a world that changes: how many bodies are not as they were at the commit before.
    int rebuilt() const { return rebuilt_; }

    // Each returns whether the ray meets something in [t_min, t_max].
    bool closest(const Ray& ray, Hit& hit) const {
        bool on_triangle = first_hit(first_, ray, hit);
        if (is_changing_ && any_see_through_) on_triangle |= first_before(ray, on_triangle, hit);
        return lamp_faces_.closest(ray, on_triangle ? hit.t : ray.t_max, hit) || on_triangle;
    }
    bool closest_see_through(const Ray& ray, Hit& hit) const {
        return any_see_through_ && first_hit(see_through_, ray, hit);
    }
    bool blocked(const Ray& ray) const {
        RTCRay query = embree_ray(ray);
        embree_occluded(opaque_, query);
        return query.tfar < 0 || lamp_faces_.blocked(ray);
    }

  private:
    // One body of a world that changes.
    struct Attached {
        RTCGeometry geometry = nullptr;  // nullptr: no triangles
        size_t vertices = 0, triangles = 0;
        bool see_through = false;
        bool is_present = false;  // added since the last commit
    };

    RTCScene scene_of(bool see_through) const { return see_through ? see_through_ : opaque_; }
    // Whether the body is there already with these triangles, apart from where its vertices are.
    static bool has_form(const Attached& body,
                         const Mesh& mesh,
                         const std::vector<uint32_t>& picked,
                         bool see_through);
    void detach(Attached& body, uint32_t number);
    void set_up(RTCScene scene, RTCSceneFlags flags, RTCBuildQuality quality) const;

    // The first see-through surface before the hit, if there is one.
    bool first_before(const Ray& ray, bool on_triangle, Hit& hit) const {
        Ray shorter = ray;
        if (on_triangle) shorter.t_max = hit.t;
        return first_hit(see_through_, shorter, hit);
    }
    static bool first_hit(RTCScene scene, const Ray& ray, Hit& hit) {
        RTCRayHit query;
        query.ray = embree_ray(ray);
        query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
        query.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
        embree_intersect(scene, query);
        if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return false;
        hit.t = query.ray.tfar;
        hit.body = query.hit.geomID;
        hit.triangle = query.hit.primID;
        hit.u = query.hit.u;
        hit.v = query.hit.v;
        hit.normal = Vec3(query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z);
        return true;
    }

    RTCDevice device_ = nullptr;
    RTCScene all_ = nullptr;     // none in a world that changes
    RTCScene opaque_ = nullptr;  // the same scene as `all_` where nothing is see-through
    RTCScene see_through_ = nullptr;
    RTCScene first_ = nullptr;  // where a search for the first hit begins: `all_` or `opaque_`
    LampFaces lamp_faces_;
    bool any_see_through_ = false;
    bool is_changing_ = false;
    std::vector<Attached> attached_;  // by body, in a world that changes
    int rebuilt_ = 0;
};

}  // namespace dapple
