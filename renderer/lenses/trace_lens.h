// Exact rays through the spheres of a lens.
//
// Sphere with the centre Q:  t = -b ± √(b² - |P - Q|² + R²),  b = (P - Q)·D, of both the hit that
// is nearer to the vertex.
//   refraction  D' = eD + (e cosθ - √(1 - e² (1 - cos²θ))) N,  e = n/n',  N against D       (E120)
//   reflection  D' = D + 2 cosθ N
// Each surface passes 1 - R or reflects R (E118).
#pragma once

#include <array>

#include "lenses/real_lens.h"

namespace dapple {

struct LensRay {
    LensVec position{0};
    LensVec direction{0, 0, 1};
};

inline constexpr int kMostStopCrossings = 3;

// Where light that entered the lens arrives.
struct LensArrival {
    bool misses = true;  // a surface, or is totally reflected; the rest is not known
    DVec2 film{0};       // mm
    LensVec direction{0, 0, 1};
    std::array<DVec2, kMostStopCrossings> stop{};
    double rim = 0;      // greatest height at a surface over its free radius; passes below 1
    Spectrum passed{0};  // share at the eight wavelengths, not counting rims and stop
};

// A ray on its route to the film. The glass has its indices at kLensWavelengths[wavelength]; what
// each surface reflects is found for all eight.
LensArrival trace_route(const RealLens& lens,
                        const LightRoute& route,
                        const LensRay& ray,
                        int wavelength);

// Whether rims and blades let the light pass.
bool passes_stop(const RealLens& lens, const LightRoute& route, const LensArrival& arrival);
inline bool is_through(const RealLens& lens, const LightRoute& route, const LensArrival& arrival) {
    return !arrival.misses && arrival.rim <= 1 && passes_stop(lens, route, arrival);
}

// One surface: moves the ray to it. Returns false if it misses.
struct SurfaceMeeting {
    LensVec normal{0, 0, -1};  // against the ray
    double cosine = 1;
    double cos_rarer = 1;  // in the medium with the lower index; below 0: total reflection
};
bool meet_surface(
    const LensSurface& surface, double nm, bool forwards, LensRay& ray, SurfaceMeeting& meeting);
void reflect_at(const SurfaceMeeting& meeting, LensRay& ray);
// Returns false at total reflection.
bool refract_at(const LensSurface& surface,
                double nm,
                bool forwards,
                const SurfaceMeeting& meeting,
                LensRay& ray);

// A ray from a point of the scene, mm, to the point (x, y) of the plane of the first vertex.
LensRay ray_to_front(const LensVec& from, double x, double y);

}  // namespace dapple
