// Rays in Embree's form, and the differences between Embree 3 and 4.
#pragma once

#if __has_include(<embree4/rtcore.h>)
#include <embree4/rtcore.h>
#else
#include <embree3/rtcore.h>
#endif

#include <cstddef>

#include "base/memory_hints.h"
#include "math/four.h"

namespace dapple {

inline constexpr const char* kEmbreeName = RTC_VERSION_MAJOR >= 4 ? "Embree 4" : "Embree 3";

static_assert(offsetof(RTCRay, tnear) == offsetof(RTCRay, org_x) + 12 &&
              offsetof(RTCRay, time) == offsetof(RTCRay, dir_x) + 12);

// Stores origin and tnear as one block, and direction and time as another, because the kernels load
// them so. A load of a block whose parts were stored one by one waits for those stores.
inline RTCRay embree_ray(const Ray& ray) {
    const auto four_of = [](const Vec3& v, float w) {
        return Four{load_alone(v.x), load_alone(v.y), load_alone(v.z), w};
    };
    RTCRay r;
    store_block(&r.org_x, four_of(ray.origin, load_alone(ray.t_min)));
    store_block(&r.dir_x, four_of(ray.direction, 0));
    r.tfar = ray.t_max;
    r.mask = ~0U;
    r.id = 0;
    r.flags = 0;
    return r;
}

inline void embree_intersect(RTCScene scene, RTCRayHit& query) {
#if RTC_VERSION_MAJOR >= 4
    rtcIntersect1(scene, &query);
#else
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcIntersect1(scene, &context, &query);
#endif
}

inline void embree_occluded(RTCScene scene, RTCRay& ray) {
#if RTC_VERSION_MAJOR >= 4
    rtcOccluded1(scene, &ray);
#else
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcOccluded1(scene, &context, &ray);
#endif
}

}  // namespace dapple
