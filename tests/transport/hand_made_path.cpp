#include "transport/hand_made_path.h"

#include <cmath>

#include "transport/technique_weights.h"

namespace dapple::test {

namespace {

constexpr double kPi = 3.14159265358979323846;

float f(double x) {
    return static_cast<float>(x);
}

double square(double x) {
    return x * x;
}

// ---- Densities by their definition: products over the steps that a technique makes. ----

// A smooth event has no density per sr. Its probability stands for the density in both directions:
// the delta factor is taken as equal in both, as the renderer takes it. At refraction it is not
// quite equal, but the weights of a path sum to 1 with any factor that both directions share.

// From vertex i to the next one towards the sensor, per m² there.
double step_to_sensor(const HandMadePath& path, int i) {
    const HandMadeVertex& v = path.vertex(i);
    const HandMadeEdge& e = path.edge(i);
    return v.pdf_to_sensor * e.cos_to / square(e.distance) * e.passes;
}

double step_to_lamp(const HandMadePath& path, int i) {
    const HandMadeVertex& v = path.vertex(i);
    const HandMadeEdge& e = path.edge(i - 1);
    return v.pdf_to_lamp * e.cos_from / square(e.distance) * e.passes;
}

// `walks` light walks reach vertex i, 1 … n + 1.
double by_light_walk(const HandMadePath& path, double walks, int i) {
    const HandMadeEdge& first = path.edge(0);
    double density = walks * (path.point_lamp ? 1 : path.pdf_area) * path.pdf_direction *
                     first.cos_to / square(first.distance) * first.passes;
    for (int k = 1; k < i; ++k) density *= step_to_sensor(path, k);
    return density;
}

// The sensor's walks reach vertex i, n … 0.
double by_sensor_walk(const HandMadePath& path, int i) {
    const int n = path.surfaces();
    const HandMadeEdge& last = path.edge(n);
    double density = path.lens_pdf;
    if (path.at_meter) {
        density =
            path.meter_walks * (path.point_receptor ? 1 : path.pdf_receptor) * last.cos_to / kPi;
    }
    density *= last.cos_from / square(last.distance) * last.passes;
    for (int k = n; k > i; --k) density *= step_to_lamp(path, k);
    return density;
}

// The number of sensor walks times the density of the sensor's point.
double at_sensor(const HandMadePath& path) {
    if (!path.at_meter) return 1;
    return path.meter_walks * (path.point_receptor ? 1 : path.pdf_receptor);
}

// The rule of where photons are merged, read from the whole path.
bool merges_at(const HandMadePath& path, int i) {
    if (path.at_meter || path.vertex(i).is_smooth || !path.vertex(i).keeps_photons) return false;
    if (i == path.surfaces()) return false;
    bool any_smooth = false;
    for (int k = 1; k < i; ++k) any_smooth = any_smooth || path.vertex(k).is_smooth;
    bool all_shiny = true;
    for (int k = i + 1; k <= path.surfaces(); ++k) all_shiny = all_shiny && path.vertex(k).is_shiny;
    return any_smooth && all_shiny;
}

// ---- Weights as the renderer computes them. ----

// The light walk's state at vertex i.
struct LightState {
    PartialWeights weights;
    PathHistory history;
};

float area_at(const HandMadePath& path, int i) {
    const bool keeps = !path.at_meter && path.vertex(i).keeps_photons;
    return keeps ? f(path.merge_area) : 0.0F;
}

LightState light_walk_at(const HandMadePath& path, int vertex) {
    LightState state;
    PartialWeights& w = state.weights;
    const double density =
        path.light_walks * (path.point_lamp ? 1 : path.pdf_area) * path.pdf_direction;
    w.join = f(1 / density);
    w.reversed = path.point_lamp ? 0.0F : f(path.edge(0).cos_from / density);
    for (int i = 1; i <= vertex; ++i) {
        const HandMadeEdge& in = path.edge(i - 1);
        w.pass_straight(f(in.passes));
        w.arrive(f(square(in.distance)), f(in.cos_to));
        // At a receptor, the lamp's density on the first edge stands in the balance.
        if (i == 1 && path.surfaces() >= 1) w.join *= f(path.pdf_asked);
        if (i == vertex) break;
        const HandMadeVertex& v = path.vertex(i);
        const float cos_out = f(path.edge(i).cos_from);
        const float drawn = i == 1 ? w.per_join * w.join * f(path.sheet_density) : 0.0F;
        if (v.is_smooth) {
            w.scatter_smooth(f(v.pdf_to_sensor), f(v.pdf_to_lamp), cos_out);
            state.history.record_smooth();
        } else {
            w.scatter(f(v.pdf_to_sensor),
                      f(v.pdf_to_lamp),
                      cos_out,
                      merging_terms(state.history, Carrying::kFlux, v.is_shiny, area_at(path, i)));
            state.history.record_rough(v.is_shiny);
        }
        if (i == 1) w.per_join = drawn;
    }
    return state;
}

struct SensorState {
    PartialWeights weights;
    PathHistory history;
    double left_join = 0;  // the sum `join` at the vertex before; 0: not to be drawn there
};

SensorState sensor_walk_at(const HandMadePath& path, int vertex) {
    SensorState state;
    PartialWeights& w = state.weights;
    const int n = path.surfaces();
    if (path.at_meter) {
        const double cos_front = path.edge(n).cos_to;
        w.join = f(kPi / cos_front);
        if (!path.point_receptor) w.reversed = f(kPi / path.pdf_receptor);
    } else {
        w.join = f(1 / path.lens_pdf);
    }
    for (int i = n; i >= vertex; --i) {
        const HandMadeEdge& in = path.edge(i);
        w.pass_straight(f(in.passes));
        w.arrive(f(square(in.distance)), f(in.cos_from));
        if (i == vertex) break;
        const HandMadeVertex& v = path.vertex(i);
        const float cos_out = f(path.edge(i - 1).cos_to);
        const bool seen_first = i == n && !path.at_meter;
        state.left_join = seen_first ? 0.0 : static_cast<double>(w.join);
        if (v.is_smooth) {
            w.scatter_smooth(f(v.pdf_to_lamp), f(v.pdf_to_sensor), cos_out);
            state.history.record_smooth();
        } else {
            w.scatter(
                f(v.pdf_to_lamp),
                f(v.pdf_to_sensor),
                cos_out,
                merging_terms(state.history, Carrying::kRadiance, v.is_shiny, area_at(path, i)));
            state.history.record_rough(v.is_shiny);
        }
    }
    return state;
}

SensorSums sums_of(const HandMadePath& path, const SensorState& state) {
    return {.weights = path.at_meter ? state.weights.without_merging() : state.weights,
            .soft_weight = path.at_meter ? 1.0F : f(path.soft_weight),
            .rough_after_first = state.history.rough_after_first()};
}

// Light walks that may make the path, for each sensor walk.
double walks_per_sensor_walk(const HandMadePath& path) {
    if (!path.at_meter) return path.light_walks;
    return (path.all_smooth() ? path.light_walks : path.joined_walks) / path.meter_walks;
}

double emitted(const HandMadePath& path) {
    return walks_per_sensor_walk(path) * (path.point_lamp ? 1 : path.pdf_area) * path.pdf_direction;
}

// Over the density of the lamp's point: a walk leaves vertex 1 with `pdf` and meets the lamp.
double met_from_first(const HandMadePath& path, double pdf) {
    const HandMadeEdge& e = path.edge(0);
    if (path.point_lamp) return 0;
    return pdf * e.cos_from / (square(e.distance) * path.pdf_asked);
}

using Techniques = std::vector<WeighedTechnique>;

void add_met_lamp(const HandMadePath& path, Techniques& all) {
    if (path.point_lamp) return;
    const SensorState state = sensor_walk_at(path, 0);
    MetLamp lamp;
    lamp.asked = f(path.pdf_asked * (1 + path.sheet_density * state.left_join));
    lamp.emitted = f(emitted(path));
    all.push_back({"lamp met",
                   by_sensor_walk(path, 0),
                   1 / static_cast<double>(balance_of_met_lamp(sums_of(path, state), lamp))});
}

void add_asked_lamp(const HandMadePath& path, Techniques& all) {
    const int n = path.surfaces();
    if (path.vertex(1).is_smooth) return;
    const SensorState state = sensor_walk_at(path, 1);
    const HandMadeEdge& e = path.edge(0);
    AskedLamp lamp;
    lamp.met = f(met_from_first(path, path.vertex(1).pdf_to_lamp));
    lamp.walked = f(emitted(path) * e.cos_to / (square(e.distance) * path.pdf_asked));
    lamp.pdf_to_sensor = f(path.vertex(1).pdf_to_sensor);
    lamp.passes = f(e.passes);
    const bool seen_first = n == 1 && !path.at_meter;
    if (!seen_first) lamp.by_sheet = f(path.sheet_density) * state.weights.join;
    all.push_back({"lamp asked",
                   by_sensor_walk(path, 1) * path.pdf_asked,
                   1 / static_cast<double>(balance_of_asked_lamp(sums_of(path, state), lamp))});
}

// What is drawn on cloth for vertex 2, which may be the receptor.
struct OnCloth {
    double met, reached, walked;
};
OnCloth on_cloth(const HandMadePath& path) {
    const HandMadeEdge& to_lamp = path.edge(0);
    const HandMadeEdge& to_z = path.edge(1);
    const double per_area = to_z.cos_from / square(to_z.distance);
    const double met = met_from_first(path, path.vertex(1).pdf_to_lamp);
    OnCloth result{};
    result.met = to_z.passes * (1 + to_lamp.passes * met) * per_area / path.sheet_density;
    result.reached = to_lamp.passes * (path.point_lamp ? 1 : path.pdf_area) * path.pdf_direction *
                     to_lamp.cos_to /
                     (square(to_lamp.distance) * path.pdf_asked * path.sheet_density);
    result.walked = result.reached * to_z.passes * path.vertex(1).pdf_to_sensor;
    return result;
}

void add_asked_sheet(const HandMadePath& path, Techniques& all) {
    if (path.sheet_density <= 0) return;
    const OnCloth cloth = on_cloth(path);
    const double drawn = path.sheet_density * path.pdf_asked;
    if (path.surfaces() >= 2) {
        if (path.vertex(2).is_smooth) return;
        const HandMadeEdge& e = path.edge(1);
        AskedSheet sheet;
        sheet.met = f(cloth.met);
        sheet.pdf_to_lamp = f(path.vertex(2).pdf_to_lamp);
        sheet.walked =
            f(walks_per_sensor_walk(path) * cloth.walked * e.cos_to / square(e.distance));
        sheet.pdf_to_sensor = f(path.vertex(2).pdf_to_sensor);
        const SensorSums sums = sums_of(path, sensor_walk_at(path, 2));
        all.push_back({"cloth asked",
                       by_sensor_walk(path, 2) * drawn,
                       1 / static_cast<double>(balance_of_asked_sheet(sums, sheet))});
    } else if (path.at_meter) {
        const HandMadeEdge& e = path.edge(1);
        SheetAtReceptor sheet;
        sheet.met = f(cloth.met);
        sheet.pdf_to_lamp = f(e.cos_to / kPi);
        sheet.joined = f(cloth.reached);
        if (!path.point_receptor) {
            sheet.falls = f(cloth.walked * e.cos_to / (square(e.distance) * path.pdf_receptor));
        }
        sheet.light_walks = f(walks_per_sensor_walk(path));
        all.push_back({"cloth asked at the receptor",
                       at_sensor(path) * drawn,
                       1 / static_cast<double>(balance_of_sheet_at_receptor(sheet))});
    }
}

void add_sensor_join(const HandMadePath& path, Techniques& all) {
    const int n = path.surfaces();
    const HandMadeVertex& v = path.vertex(n);
    if (v.is_smooth) return;
    const LightState state = light_walk_at(path, n);
    const HandMadeEdge& e = path.edge(n);
    SensorJoin join;
    join.weights = path.at_meter ? state.weights.without_merging() : state.weights;
    join.is_shiny = v.is_shiny;
    join.pdf_to_lamp = f(v.pdf_to_lamp);
    join.pdf_to_sensor = f(v.pdf_to_sensor);
    join.passes = f(e.passes);
    join.distance2 = f(square(e.distance));
    const double per_area = e.cos_from / square(e.distance);
    double walks = path.light_walks;
    if (path.at_meter) {
        join.walked = f(path.meter_walks * e.cos_to / kPi * per_area);
        join.light_walks = f(path.light_walks / path.joined_walks);
        walks = path.joined_walks;
        if (!path.point_receptor) join.caught = f(e.cos_to / path.pdf_receptor);
        if (n == 1) join.sheet_drawn = f(path.meter_walks * path.sheet_density);
    } else {
        join.walked = f(path.lens_pdf * per_area);
        join.soft_weight = state.history.only_smooth() ? 1.0F : f(path.soft_weight);
    }
    const double point = path.at_meter && !path.point_receptor ? path.pdf_receptor : 1;
    all.push_back({"joined to the sensor",
                   by_light_walk(path, walks, n) * point * static_cast<double>(join.soft_weight),
                   1 / static_cast<double>(balance_of_sensor_join(join))});
}

void add_merged_photons(const HandMadePath& path, Techniques& all) {
    for (int i = 1; i < path.surfaces(); ++i) {
        const LightState light = light_walk_at(path, i);
        const SensorState camera = sensor_walk_at(path, i);
        const HandMadeVertex& v = path.vertex(i);
        // As keep_photon() and SensorVisit::gathers_photons() decide.
        const bool merges = !path.at_meter && !v.is_smooth && v.keeps_photons &&
                            light.history.any_smooth() && camera.history.has_events() &&
                            camera.history.only_shiny();
        const double density = merges_at(path, i) ? by_light_walk(path, path.light_walks, i) *
                                                        by_sensor_walk(path, i) * path.merge_area
                                                  : 0;
        if (!merges) {
            if (density > 0) all.push_back({"photons not merged", density, 0});
            continue;
        }
        const MergedPhoton photon{.joinable = light.weights.per_join * light.weights.join,
                                  .reversed = light.weights.reversed,
                                  .shiny = v.is_shiny ? light.weights.shiny : 0.0F,
                                  .pdf_to_lamp = f(v.pdf_to_lamp),
                                  .pdf_to_sensor = f(v.pdf_to_sensor),
                                  .area = f(path.merge_area)};
        all.push_back(
            {"photons merged at vertex " + std::to_string(i),
             density,
             1 / static_cast<double>(balance_of_merged_photon(sums_of(path, camera), photon))});
    }
}

void add_at_receptor(const HandMadePath& path, Techniques& all) {
    const int n = path.surfaces();
    const HandMadeEdge& e = path.edge(n);
    if (n == 0) {
        AskedAtReceptor asked;
        asked.met = f(met_from_first(path, e.cos_to / kPi));
        if (!path.point_receptor) {
            asked.fallen = f(emitted(path) * e.cos_to /
                             (square(e.distance) * path.pdf_asked * path.pdf_receptor));
        }
        asked.passes = f(e.passes);
        all.push_back({"lamp asked at the receptor",
                       at_sensor(path) * path.pdf_asked,
                       1 / static_cast<double>(balance_of_asked_at_receptor(asked))});
    }
    if (path.point_receptor) return;
    const double walks = path.all_smooth() ? path.light_walks : path.joined_walks;
    FallenLight fallen;
    fallen.weights = light_walk_at(path, n + 1).weights.without_merging();
    fallen.first_edge = n == 0;
    fallen.asked = f(path.pdf_asked);
    fallen.pdf_area = f(path.pdf_receptor);
    fallen.pdf_walk = f(e.cos_to / kPi);
    fallen.meter_walks = f(path.meter_walks);
    fallen.light_walks = f(path.light_walks / walks);
    all.push_back({"fallen on the receptor",
                   by_light_walk(path, walks, n + 1),
                   1 / static_cast<double>(balance_of_fallen_light(fallen))});
}

}  // namespace

std::vector<WeighedTechnique> weigh_all_techniques(const HandMadePath& path) {
    Techniques all;
    add_met_lamp(path, all);
    if (path.surfaces() > 0) {
        add_asked_lamp(path, all);
        add_asked_sheet(path, all);
        add_sensor_join(path, all);
        add_merged_photons(path, all);
    }
    if (path.at_meter) add_at_receptor(path, all);
    return all;
}

}  // namespace dapple::test
