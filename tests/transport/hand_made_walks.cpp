#include "transport/hand_made_walks.h"

#include "base/units.h"

namespace dapple::test {

namespace {

float merge_area_at(const HandMadePath& path, int i) {
    const bool keeps = !path.at_meter && path.vertex(i).keeps_photons;
    return keeps ? as_float(path.merge_area) : 0.0F;
}

// The densities of a vertex in the direction of a walk.
struct Step {
    double pdf = 0;          // of the walk's step
    double pdf_reverse = 0;  // of the same step by a walk in the other direction
    double cos_out = 0;
};

// The walk leaves vertex i.
void leave(
    const HandMadePath& path, int i, Carrying carrying, const Step& step, HandMadeWalk& walk) {
    const HandMadeVertex& v = path.vertex(i);
    const float pdf = as_float(step.pdf);
    const float pdf_reverse = as_float(step.pdf_reverse);
    const float cos_out = as_float(step.cos_out);
    if (v.is_smooth) {
        walk.weights.scatter_smooth(pdf, pdf_reverse, cos_out);
        walk.history.record_smooth();
    } else {
        walk.weights.scatter(
            pdf,
            pdf_reverse,
            cos_out,
            merging_terms(walk.history, carrying, {v.is_shiny, v.focuses}, merge_area_at(path, i)));
        walk.history.record_rough(v.is_shiny, v.focuses);
    }
}

}  // namespace

double asked_over_edge(const HandMadePath& path, int i, bool seen_first) {
    // The receptor asks always.
    if (i > path.surfaces() || i > 2) return 1;
    if (i == 1) return seen_first ? path.asks_lamp_first : path.asks_lamp_later;
    return seen_first ? path.asks_sheet_first : path.asks_sheet_later;
}

HandMadeWalk light_walk_at(const HandMadePath& path, int vertex) {
    HandMadeWalk walk;
    PartialWeights& w = walk.weights;
    const double density = path.light_walks * path.lamp_area_density() * path.pdf_direction;
    w.join = as_float(1 / density);
    w.reversed = path.point_lamp ? 0.0F : as_float(path.edge(0).cos_from / density);
    for (int i = 1; i <= vertex; ++i) {
        const HandMadeEdge& in = path.edge(i - 1);
        w.pass_straight(as_float(in.passes));
        w.arrive(as_float(in.distance2()), as_float(in.cos_to));
        // If vertex 1 is the receptor, balance_of_fallen_light() multiplies by this density.
        if (i == 1 && path.surfaces() >= 1) w.join *= as_float(path.pdf_lamp_point);
        walk.sheet_join = i == 1 ? static_cast<double>(w.join) * path.sheet_density : 0;
        if (i == vertex) break;
        const HandMadeVertex& v = path.vertex(i);
        const float by_sheet = w.join * as_float(path.sheet_density);
        w.per_join *= as_float(asked_over_edge(path, i, false));
        const Step step{v.pdf_to_sensor, v.pdf_to_lamp, path.edge(i).cos_from};
        leave(path, i, Carrying::kFlux, step, walk);
        if (i == 1) w.per_join = by_sheet;
    }
    return walk;
}

HandMadeWalk sensor_walk_at(const HandMadePath& path, int vertex) {
    HandMadeWalk walk;
    PartialWeights& w = walk.weights;
    const int n = path.surfaces();
    if (path.at_meter) {
        const double cos_front = path.edge(n).cos_to;
        w.join = as_float(kPi / cos_front);
        if (!path.point_receptor) w.reversed = as_float(kPi / path.pdf_receptor);
    } else {
        w.join = as_float(1 / path.lens_pdf);
    }
    for (int i = n; i >= vertex; --i) {
        const HandMadeEdge& in = path.edge(i);
        w.pass_straight(as_float(in.passes));
        w.arrive(as_float(in.distance2()), as_float(in.cos_from));
        if (i < n) w.per_inner = as_float(path.connects(i + 1) / path.stored_flux);
        if (i == vertex) break;
        const HandMadeVertex& v = path.vertex(i);
        const bool seen_first = i == n && !path.at_meter;
        walk.join_before = seen_first ? 0.0 : static_cast<double>(w.join);
        const Step step{v.pdf_to_lamp, v.pdf_to_sensor, path.edge(i - 1).cos_to};
        leave(path, i, Carrying::kRadiance, step, walk);
    }
    return walk;
}

SensorSums sums_of(const HandMadePath& path, const HandMadeWalk& sensor_walk) {
    const PartialWeights& w = sensor_walk.weights;
    return {.weights = path.at_meter ? w.without_merging() : w,
            .soft_weight = path.at_meter ? 1.0F : as_float(path.soft_weight),
            .rough_after_first = sensor_walk.history.rough_after_first(),
            .stored_flux = as_float(path.stored_flux)};
}

}  // namespace dapple::test
