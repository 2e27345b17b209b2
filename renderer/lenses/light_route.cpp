#include "lenses/light_route.h"

namespace dapple {

namespace {

void meet(const Prescription& lens, RouteStep step, LightRoute& route) {
    route.steps.push_back(step);
    if (lens.surfaces[step.surface].is_stop) ++route.stop_crossings;
}

}  // namespace

LightRoute image_route(const Prescription& lens) {
    LightRoute route;
    for (size_t k = 0; k < lens.surfaces.size(); ++k) meet(lens, {k}, route);
    return route;
}

LightRoute ghost_route(const Prescription& lens, size_t i, size_t j) {
    LightRoute route;
    for (size_t k = 0; k < j; ++k) meet(lens, {k}, route);
    meet(lens, {j, true, true}, route);
    for (size_t k = j; k-- > i + 1;) meet(lens, {k, false, false}, route);
    meet(lens, {i, true, false}, route);
    for (size_t k = i + 1; k < lens.surfaces.size(); ++k) meet(lens, {k}, route);
    return route;
}

std::vector<std::pair<size_t, size_t>> ghost_pairs(const Prescription& lens) {
    std::vector<std::pair<size_t, size_t>> pairs;
    for (size_t j = 0; j < lens.surfaces.size(); ++j) {
        if (lens.surfaces[j].is_stop) continue;
        for (size_t i = 0; i < j; ++i) {
            if (!lens.surfaces[i].is_stop) pairs.emplace_back(i, j);
        }
    }
    return pairs;
}

}  // namespace dapple
