// The differences between Embree 3 and 4, in one place.
#pragma once

#if __has_include(<embree4/rtcore.h>)
#include <embree4/rtcore.h>
#else
#include <embree3/rtcore.h>
#endif

namespace dapple {

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
