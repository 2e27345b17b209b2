#include "lenses/trace_lens.h"

#include <algorithm>
#include <cmath>

#include "lenses/lens_wavelengths.h"

namespace dapple {

namespace {

double height(const LensVec& p) {
    return std::sqrt(p.x * p.x + p.y * p.y);
}

bool move_to_plane(double z, LensRay& ray) {
    if (std::abs(ray.direction.z) < 1e-9) return false;
    ray.position += (z - ray.position.z) / ray.direction.z * ray.direction;
    return true;
}

// Moves the ray to the sphere and returns the normal, against the ray; false if it misses.
bool move_to_sphere(const LensSurface& s, LensRay& ray, LensVec& normal) {
    const LensVec centre(0, 0, s.vertex + s.radius);
    const LensVec oc = ray.position - centre;
    const double b = glm::dot(oc, ray.direction);
    const double disc = b * b - (glm::dot(oc, oc) - s.radius * s.radius);
    if (disc < 0) return false;
    const double root = std::sqrt(disc);
    const LensVec one = ray.position + (-b - root) * ray.direction;
    const LensVec two = ray.position + (-b + root) * ray.direction;
    ray.position = std::abs(one.z - s.vertex) < std::abs(two.z - s.vertex) ? one : two;
    normal = (ray.position - centre) / std::abs(s.radius);
    if (glm::dot(normal, ray.direction) > 0) normal = -normal;
    return true;
}

}  // namespace

bool meet_surface(
    const LensSurface& s, double nm, bool forwards, LensRay& ray, SurfaceMeeting& meeting) {
    if (s.radius == 0) {
        if (!move_to_plane(s.vertex, ray)) return false;
        meeting.normal = LensVec(0, 0, ray.direction.z > 0 ? -1 : 1);
    } else if (!move_to_sphere(s, ray, meeting.normal)) {
        return false;
    }
    meeting.cosine = -glm::dot(meeting.normal, ray.direction);
    const double from = (forwards ? s.before : s.behind).at(nm);
    const double to = (forwards ? s.behind : s.before).at(nm);
    meeting.cos_rarer = meeting.cosine;
    if (from > to) {
        const double sin2 = (1 - meeting.cosine * meeting.cosine) * (from / to) * (from / to);
        meeting.cos_rarer = sin2 < 1 ? std::sqrt(1 - sin2) : -1;
    }
    return true;
}

void reflect_at(const SurfaceMeeting& meeting, LensRay& ray) {
    ray.direction += 2 * meeting.cosine * meeting.normal;
}

bool refract_at(
    const LensSurface& s, double nm, bool forwards, const SurfaceMeeting& meeting, LensRay& ray) {
    const double e =
        forwards ? s.before.at(nm) / s.behind.at(nm) : s.behind.at(nm) / s.before.at(nm);
    const double under = 1 - e * e * (1 - meeting.cosine * meeting.cosine);
    if (under < 0) return false;
    ray.direction = e * ray.direction + (e * meeting.cosine - std::sqrt(under)) * meeting.normal;
    return true;
}

LensArrival trace_route(const RealLens& lens,
                        const LightRoute& route,
                        const LensRay& start,
                        int wavelength) {
    const double nm = kLensWavelengths[static_cast<size_t>(wavelength)];
    LensArrival arrival;
    LensRay ray = start;
    Spectrum passed(1.0F);
    size_t crossing = 0;
    for (const RouteStep& step : route.steps) {
        const LensSurface& s = lens.glass().surfaces[step.surface];
        SurfaceMeeting meeting;
        if (!meet_surface(s, nm, step.forwards, ray, meeting)) return arrival;
        if (s.is_stop) {
            arrival.stop[crossing++] = DVec2(ray.position.x, ray.position.y);
            continue;
        }
        arrival.rim = std::max(arrival.rim, height(ray.position) / s.free_radius);
        const bool total = meeting.cos_rarer < 0;
        if (step.reflects) {
            if (!total) passed *= lens.reflectance(step.surface).at(meeting.cos_rarer);
            reflect_at(meeting, ray);
        } else {
            if (total || !refract_at(s, nm, step.forwards, meeting, ray)) return arrival;
            passed *= Spectrum(1.0F) - lens.reflectance(step.surface).at(meeting.cos_rarer);
        }
    }
    if (!(ray.direction.z > 0) || !move_to_plane(lens.film_z(), ray)) return arrival;
    arrival.misses = false;
    arrival.film = DVec2(ray.position.x, ray.position.y);
    arrival.direction = ray.direction;
    arrival.passed = passed;
    return arrival;
}

bool passes_stop(const RealLens& lens, const LightRoute& route, const LensArrival& arrival) {
    for (int k = 0; k < route.stop_crossings; ++k) {
        const DVec2& at = arrival.stop[static_cast<size_t>(k)];
        if (!lens.stop().passes(at.x, at.y)) return false;
    }
    return true;
}

LensRay ray_to_front(const LensVec& from, double x, double y) {
    const LensVec to(x, y, 0);
    return {to, glm::normalize(to - from)};
}

}  // namespace dapple
