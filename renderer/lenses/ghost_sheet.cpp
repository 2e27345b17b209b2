#include "lenses/ghost_sheet.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/units.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/paraxial.h"

namespace dapple {

namespace {

constexpr int kPilotRays = 24;       // across the front element
constexpr int kEnoughPilotRays = 8;  // that get through, to know where
constexpr double kSpare = 0.15;      // of the part's width, on each side

struct Part {
    DVec2 low{0}, high{0};
};

// A lamp's light on one route.
struct LampOnRoute {
    const RealLens& lens;
    const Hood& hood;
    const LightRoute& route;
    const LensVec& lamp;  // mm
    int wavelength = 0;
};

// The interval of heights y for which |(a + b/Z) y - b x/Z| stays below `limit` at a surface, in
// first order, for a lamp at the height x and the distance Z.
void keep_within(const RayMatrix& m, double limit, const LensVec& lamp, Part& part) {
    const double z = -lamp.z;
    const double slope = m.a + m.b / z;
    if (std::abs(slope) < 1e-12) return;
    const double middle = m.b * lamp.x / z / slope;
    const double half = limit / std::abs(slope);
    part.low = glm::max(part.low, DVec2(middle - half, -half));
    part.high = glm::min(part.high, DVec2(middle + half, half));
}

// Where light enters that gets through, by first order. May be empty.
Part first_order_part(const LampOnRoute& light) {
    const RealLens& lens = light.lens;
    const double nm = kLensWavelengths[static_cast<size_t>(light.wavelength)];
    const double a = lens.front_radius();
    Part part{DVec2(-a), DVec2(a)};
    const auto matrices = Paraxial(lens.glass(), nm).to_surfaces(light.route);
    for (size_t k = 0; k < light.route.steps.size(); ++k) {
        const LensSurface& s = lens.glass().surfaces[light.route.steps[k].surface];
        const double limit = s.is_stop ? lens.stop().radius : s.free_radius;
        keep_within(matrices[k], limit, light.lamp, part);
    }
    return part;
}

bool enters(const RealLens& lens, const Hood& hood, const LensRay& ray) {
    return glm::length(DVec2(ray.position)) <= lens.front_radius() && hood.lets_in(ray);
}

GhostSheet trace_part(const LampOnRoute& light, const Part& part, int size) {
    const double cosine = -light.lamp.z / glm::length(light.lamp);
    GhostSheet sheet{size, part.low, part.high, {}, 0, cosine};
    const DVec2 step = (part.high - part.low) / static_cast<double>(size - 1);
    sheet.patch = step.x * step.y;
    sheet.rays.reserve(static_cast<size_t>(size) * static_cast<size_t>(size));
    for (int j = 0; j < size; ++j) {
        for (int i = 0; i < size; ++i) {
            const DVec2 at = part.low + step * DVec2(i, j);
            const LensRay ray = ray_to_front(light.lamp, at.x, at.y);
            LensArrival arrival = trace_route(light.lens, light.route, ray, light.wavelength);
            if (!enters(light.lens, light.hood, ray)) arrival.rim = std::max(arrival.rim, 1.0001);
            sheet.rays.push_back(arrival);
        }
    }
    return sheet;
}

// The cells of a coarse grid over a part of the front in which rays get through.
std::optional<Part> pilot_part(const LampOnRoute& light, const Part& over) {
    const GhostSheet pilot = trace_part(light, over, kPilotRays);
    const DVec2 cell = (over.high - over.low) / static_cast<double>(kPilotRays - 1);
    Part part{over.high, over.low};
    int through = 0;
    for (int j = 0; j < kPilotRays; ++j) {
        for (int i = 0; i < kPilotRays; ++i) {
            if (!is_through(light.lens, light.route, pilot.at(i, j))) continue;
            ++through;
            const DVec2 at = over.low + cell * DVec2(i, j);
            part.low = glm::min(part.low, at - cell);
            part.high = glm::max(part.high, at + cell);
        }
    }
    if (through == 0) return std::nullopt;
    if (through < kEnoughPilotRays) {
        part.low -= cell;
        part.high += cell;
    }
    return part;
}

Part on_front(const RealLens& lens, const Part& part) {
    const DVec2 corner(lens.front_radius());
    return {glm::max(part.low, -corner), glm::min(part.high, corner)};
}

// First order misses what is steep, a grid over the whole front what is small: both, and then only
// what a finer grid finds of them.
std::optional<Part> live_part(const LampOnRoute& light) {
    const Part whole = on_front(light.lens, {DVec2(-1e9), DVec2(1e9)});
    Part part = first_order_part(light);
    const bool is_empty = part.low.x >= part.high.x || part.low.y >= part.high.y;
    const DVec2 spare = kSpare * (part.high - part.low);
    part = {part.low - spare, part.high + spare};
    const auto found = pilot_part(light, whole);
    if (is_empty && !found) return std::nullopt;
    if (is_empty) part = *found;
    if (found) {
        part.low = glm::min(part.low, found->low);
        part.high = glm::max(part.high, found->high);
    }
    part = on_front(light.lens, part);
    if (part.low.x >= part.high.x || part.low.y >= part.high.y) return std::nullopt;
    const auto finer = pilot_part(light, part);
    return finer ? on_front(light.lens, *finer) : part;
}

}  // namespace

GhostSheet trace_sheet(const RealLens& lens,
                       const Hood& hood,
                       const LightRoute& route,
                       const LensVec& lamp,
                       int wavelength,
                       int size) {
    const LampOnRoute light{lens, hood, route, lamp, wavelength};
    const auto part = live_part(light);
    return part ? trace_part(light, *part, size) : GhostSheet{};
}

SheetSum sum_sheet(const RealLens& lens, const LightRoute& route, const GhostSheet& sheet) {
    constexpr int kGreen = 4;  // 550 nm
    SheetSum light;
    double weight = 0;
    for (const LensArrival& ray : sheet.rays) {
        if (!is_through(lens, route, ray)) continue;
        const auto w = static_cast<double>(ray.passed[kGreen]);
        light.low = weight > 0 ? std::min(light.low, ray.film.x) : ray.film.x;
        light.high = weight > 0 ? std::max(light.high, ray.film.x) : ray.film.x;
        light.share += ray.passed;
        light.mean += w * ray.film;
        weight += w;
    }
    if (!(weight > 0)) return {};
    light.mean /= weight;
    const double front = kPi * lens.front_radius() * lens.front_radius();
    light.share *= static_cast<float>(sheet.patch / front);
    return light;
}

}  // namespace dapple
