#include "transport/path_densities.h"

#include "base/units.h"

namespace dapple::test {

namespace {

// From vertex i to vertex i + 1, per m² there.
double step_to_sensor(const HandMadePath& path, int i) {
    const HandMadeVertex& v = path.vertex(i);
    const HandMadeEdge& e = path.edge(i);
    return v.pdf_to_sensor * e.cos_to / e.distance2() * e.passes;
}

// From vertex i to vertex i - 1, per m² there.
double step_to_lamp(const HandMadePath& path, int i) {
    const HandMadeVertex& v = path.vertex(i);
    const HandMadeEdge& e = path.edge(i - 1);
    return v.pdf_to_lamp * e.cos_from / e.distance2() * e.passes;
}

}  // namespace

double density_by_light_walk(const HandMadePath& path, double walks, int i) {
    const HandMadeEdge& first = path.edge(0);
    double density = walks * path.lamp_area_density() * path.pdf_direction * first.cos_to /
                     first.distance2() * first.passes;
    for (int k = 1; k < i; ++k) density *= step_to_sensor(path, k);
    return density;
}

double density_by_sensor_walk(const HandMadePath& path, int i) {
    const int n = path.surfaces();
    const HandMadeEdge& last = path.edge(n);
    const double pdf_direction = path.at_meter ? last.cos_to / kPi : path.lens_pdf;
    double density = path.sensor_walks() * path.sensor_area_density() * pdf_direction *
                     last.cos_from / last.distance2() * last.passes;
    for (int k = n; k > i; --k) density *= step_to_lamp(path, k);
    return density;
}

bool merges_at(const HandMadePath& path, int i) {
    if (path.at_meter || path.vertex(i).is_smooth || !path.vertex(i).keeps_photons) return false;
    if (i == path.surfaces()) return false;
    bool any_focusing = false;
    for (int k = 1; k < i; ++k) any_focusing = any_focusing || path.vertex(k).focuses;
    bool all_shiny = true;
    for (int k = i + 1; k <= path.surfaces(); ++k) all_shiny = all_shiny && path.vertex(k).is_shiny;
    return any_focusing && all_shiny;
}

}  // namespace dapple::test
