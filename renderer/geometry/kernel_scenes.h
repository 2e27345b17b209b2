// The bodies as the ray tracing kernels (Embree) hold them, and the queries of the kernels.
//
// See-through is what light can pass unscattered and unbent: cloth with an open weave, window
// panes, cut-outs. One scene holds all bodies. A second one holds the opaque bodies alone, so that
// most shadow rays end after one query. A third one holds the see-through bodies alone. Lamp faces
// are in none of them (lamp_faces.h).
#pragma once

#include <vector>

#include "geometry/embree_api.h"
#include "geometry/lamp_faces.h"
#include "geometry/surface_point.h"

namespace dapple {

class KernelScenes {
  public:
    KernelScenes();
    ~KernelScenes();
    KernelScenes(const KernelScenes&) = delete;
    KernelScenes& operator=(const KernelScenes&) = delete;

    // Adds the triangles `picked` of the mesh as body number `body`.
    void add_triangles(uint32_t body,
                       const Mesh& mesh,
                       const std::vector<uint32_t>& picked,
                       bool see_through);
    // Adds the lamp's face as body number `body`. False: the lamp is a point, which no ray meets.
    bool add_lamp_face(uint32_t body, const Fixture& fixture) {
        return lamp_faces_.add(body, fixture);
    }
    // Call once, after all bodies have been added and before the first query.
    void commit();

    // Each returns whether the ray meets something in [t_min, t_max].
    bool closest(const Ray& ray, Hit& hit) const {
        const bool on_triangle = first_hit(all_, ray, hit);
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
    RTCScene all_ = nullptr;
    RTCScene opaque_ = nullptr;  // the same scene as `all_` where nothing is see-through
    RTCScene see_through_ = nullptr;
    LampFaces lamp_faces_;
    bool any_see_through_ = false;
};

}  // namespace dapple
