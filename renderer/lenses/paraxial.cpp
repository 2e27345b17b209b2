#include "lenses/paraxial.h"

#include <cmath>

namespace dapple {

namespace {

RayMatrix gap(double t) {
    return {1, t, 0, 1};
}

double curvature(double radius) {
    return radius == 0 ? 0 : 1 / radius;
}

// What the surface does to light that arrives forwards or backwards.
RayMatrix bend(const LensSurface& s, const RouteStep& step, double nm) {
    const double c = step.forwards ? curvature(s.radius) : -curvature(s.radius);
    if (step.reflects) return {1, 0, 2 * c, 1};
    const double from = (step.forwards ? s.before : s.behind).at(nm);
    const double to = (step.forwards ? s.behind : s.before).at(nm);
    return {1, 0, -(to - from) * c / to, from / to};
}

}  // namespace

std::vector<RayMatrix> Paraxial::to_surfaces(const LightRoute& route) const {
    std::vector<RayMatrix> at;
    RayMatrix m;
    double z = 0;
    for (const RouteStep& step : route.steps) {
        const LensSurface& s = lens_.surfaces[step.surface];
        m = gap(std::abs(s.vertex - z)).after(m);
        at.push_back(m);
        m = bend(s, step, nm_).after(m);
        z = s.vertex;
    }
    return at;
}

RayMatrix Paraxial::to_film(const LightRoute& route, double film_z) const {
    const RouteStep& last = route.steps.back();
    const LensSurface& s = lens_.surfaces[last.surface];
    const RayMatrix m = bend(s, last, nm_).after(to_surfaces(route).back());
    return gap(film_z - s.vertex).after(m);
}

RayMatrix Paraxial::through() const {
    return to_film(image_route(lens_), lens_.surfaces.back().vertex);
}

RayMatrix Paraxial::front_group() const {
    return to_surfaces(image_route(lens_))[lens_.stop];
}

double Paraxial::focal_length() const {
    return -1 / through().c;
}

double Paraxial::back_focus() const {
    const RayMatrix m = through();
    return -m.a / m.c;
}

double Paraxial::image_distance(double distance) const {
    const RayMatrix m = through().after(gap(distance));
    return -m.b / m.d;
}

double Paraxial::entrance_pupil() const {
    const RayMatrix m = front_group();
    return m.b / m.a;
}

double Paraxial::height_at_stop() const {
    return front_group().a;
}

Paraxial::ExitPupil Paraxial::exit_pupil() const {
    const RayMatrix f = front_group();
    const double det = f.a * f.d - f.b * f.c;
    const RayMatrix back = through().after({f.d / det, -f.b / det, -f.c / det, f.a / det});
    const double distance = -back.b / back.d;
    return {distance, back.a + distance * back.c};
}

}  // namespace dapple
