#include "transport/weigh_techniques.h"

#include "base/units.h"
#include "transport/hand_made_walks.h"
#include "transport/path_densities.h"

namespace dapple::test {

namespace {

using Techniques = std::vector<WeighedTechnique>;

void add(const std::string& name, double density, float balance, Techniques& all) {
    all.push_back({name, density, 1 / static_cast<double>(balance)});
}

// N pA pω of the light walks that can make the path, for each sensor walk.
double emitted(const HandMadePath& path) {
    return path.light_walks_for_path() / path.sensor_walks() * path.lamp_area_density() *
           path.pdf_direction;
}

// Density with which a walk leaves vertex 1 with `pdf` and meets the lamp's point, over the density
// with which vertex 1 samples that point.
double met_from_first(const HandMadePath& path, double pdf) {
    const HandMadeEdge& e = path.edge(0);
    if (path.point_lamp) return 0;
    return pdf * e.cos_from / (e.distance2() * path.pdf_lamp_point);
}

// The probability with which vertex 1 asks the lamp, or the receptor on a path without surfaces.
double asks_lamp_at_first(const HandMadePath& path) {
    return path.surfaces() > 0 ? path.asks_lamp(1) : 1;
}

// The probability with which vertex 2, or the receptor, asks for the light of the cloth at vertex
// 1.
double asks_cloth(const HandMadePath& path) {
    return path.surfaces() > 1 ? path.asks_sheet(2) : 1;
}

// E87.
void add_met_lamp(const HandMadePath& path, Techniques& all) {
    if (path.point_lamp) return;
    const HandMadeWalk walk = sensor_walk_at(path, 0);
    MetLamp lamp;
    lamp.pdf_lamp_point =
        as_float(path.pdf_lamp_point * (asks_lamp_at_first(path) +
                                        path.sheet_density * walk.join_before * asks_cloth(path)));
    lamp.emitted = as_float(emitted(path));
    add("lamp met",
        density_by_sensor_walk(path, 0),
        balance_of_met_lamp(sums_of(path, walk), lamp),
        all);
}

// E88.
void add_sampled_lamp(const HandMadePath& path, Techniques& all) {
    if (path.vertex(1).is_smooth) return;
    const HandMadeWalk walk = sensor_walk_at(path, 1);
    const HandMadeEdge& e = path.edge(0);
    SampledLamp lamp;
    lamp.by_sensor_walk = as_float(met_from_first(path, path.vertex(1).pdf_to_lamp));
    lamp.by_light_walk = as_float(emitted(path) * e.cos_to / (e.distance2() * path.pdf_lamp_point));
    lamp.pdf_to_sensor = as_float(path.vertex(1).pdf_to_sensor);
    lamp.passes = as_float(e.passes);
    const bool seen_first = path.surfaces() == 1 && !path.at_meter;
    if (!seen_first) {
        lamp.by_sheet = as_float(path.sheet_density * asks_cloth(path)) * walk.weights.join;
    }
    lamp.asked = as_float(path.asks_lamp(1));
    lamp.focuses = path.vertex(1).focuses;
    add("lamp sampled",
        density_by_sensor_walk(path, 1) * path.pdf_lamp_point * path.asks_lamp(1),
        balance_of_sampled_lamp(sums_of(path, walk), lamp),
        all);
}

// The fields of SheetLight (transport/sheet_light.h) for vertex 1 on cloth and vertex 2 as its
// receiver.
struct HandMadeSheetLight {
    double met = 0;
    double reached = 0;
    double walked = 0;
};
HandMadeSheetLight sheet_light(const HandMadePath& path) {
    const HandMadeEdge& to_lamp = path.edge(0);
    const HandMadeEdge& to_receiver = path.edge(1);
    const double per_area = to_receiver.cos_from / to_receiver.distance2();
    const double met = met_from_first(path, path.vertex(1).pdf_to_lamp);
    HandMadeSheetLight light;
    light.met = to_receiver.passes * (path.asks_lamp_later + to_lamp.passes * met) * per_area /
                path.sheet_density;
    light.reached = to_lamp.passes * path.lamp_area_density() * path.pdf_direction *
                    to_lamp.cos_to /
                    (to_lamp.distance2() * path.pdf_lamp_point * path.sheet_density);
    light.walked = light.reached * to_receiver.passes * path.vertex(1).pdf_to_sensor;
    return light;
}

// E89 at vertex 2.
void add_sampled_sheet(const HandMadePath& path, Techniques& all) {
    if (path.vertex(2).is_smooth) return;
    const HandMadeSheetLight light = sheet_light(path);
    const HandMadeEdge& e = path.edge(1);
    SampledSheet sheet;
    sheet.by_sensor_walk = as_float(light.met);
    sheet.pdf_to_cloth = as_float(path.vertex(2).pdf_to_lamp);
    sheet.by_light_walk = as_float(path.light_walks_for_path() / path.sensor_walks() *
                                   light.walked * e.cos_to / e.distance2());
    sheet.pdf_to_sensor = as_float(path.vertex(2).pdf_to_sensor);
    sheet.by_connection = as_float(path.light_walks_for_path() / path.sensor_walks() *
                                   light.reached * path.connects(2));
    sheet.asked = as_float(path.asks_sheet(2));
    sheet.focuses = path.vertex(2).focuses;
    add("cloth sampled",
        density_by_sensor_walk(path, 2) * path.sheet_density * path.pdf_lamp_point *
            path.asks_sheet(2),
        balance_of_sampled_sheet(sums_of(path, sensor_walk_at(path, 2)), sheet),
        all);
}

// E89 at the receptor.
void add_sheet_at_receptor(const HandMadePath& path, Techniques& all) {
    const HandMadeSheetLight light = sheet_light(path);
    const HandMadeEdge& e = path.edge(1);
    SheetAtReceptor sheet;
    sheet.by_sensor_walk = as_float(light.met);
    sheet.pdf_to_cloth = as_float(e.cos_to / kPi);
    sheet.by_joining = as_float(light.reached);
    if (!path.point_receptor) {
        sheet.by_falling = as_float(light.walked * e.cos_to / (e.distance2() * path.pdf_receptor));
    }
    sheet.light_walks_per_meter_walk = as_float(path.light_walks_for_path() / path.sensor_walks());
    add("cloth sampled at the receptor",
        path.sensor_walks() * path.sensor_area_density() * path.sheet_density * path.pdf_lamp_point,
        balance_of_sheet_at_receptor(sheet),
        all);
}

// E90.
void add_sensor_join(const HandMadePath& path, Techniques& all) {
    const int n = path.surfaces();
    const HandMadeVertex& v = path.vertex(n);
    if (v.is_smooth) return;
    const HandMadeWalk walk = light_walk_at(path, n);
    const HandMadeEdge& e = path.edge(n);
    SensorJoin join;
    join.weights = path.at_meter ? walk.weights.without_merging() : walk.weights;
    join.weights.per_join *= as_float(asked_over_edge(path, n, !path.at_meter));
    join.weights.per_join += as_float(path.connects(n));
    join.vertex_is_shiny = v.is_shiny;
    join.pdf_to_lamp = as_float(v.pdf_to_lamp);
    join.pdf_to_sensor = as_float(v.pdf_to_sensor);
    join.passes = as_float(e.passes);
    join.distance2 = as_float(e.distance2());
    const double per_area = e.cos_from / e.distance2();
    if (path.at_meter) {
        join.by_sensor_walk = as_float(path.meter_walks * e.cos_to / kPi * per_area);
        join.light_walks_per_joined = as_float(path.light_walks / path.joined_walks);
        if (!path.point_receptor) join.by_falling = as_float(e.cos_to / path.pdf_receptor);
        if (n == 1) join.by_sheet = as_float(path.meter_walks * path.sheet_density);
    } else {
        join.by_sensor_walk = as_float(path.lens_pdf * per_area);
        join.soft_weight = walk.history.only_smooth() ? 1.0F : as_float(path.soft_weight);
    }
    const double joined_walks = path.light_walks_for_path() * static_cast<double>(join.soft_weight);
    add("joined to the sensor",
        density_by_light_walk(path, joined_walks, n) * path.sensor_area_density(),
        balance_of_sensor_join(join),
        all);
}

// E93 at vertex i.
void add_merged_photons(const HandMadePath& path, int i, Techniques& all) {
    const HandMadeWalk light = light_walk_at(path, i);
    const HandMadeWalk camera = sensor_walk_at(path, i);
    const HandMadeVertex& v = path.vertex(i);
    const double density = merges_at(path, i)
                               ? density_by_light_walk(path, path.light_walks, i) *
                                     density_by_sensor_walk(path, i) * path.merge_area
                               : 0;
    // The conditions of keep_photon() and SensorVisit::gathers_photons().
    const bool merges = !path.at_meter && !v.is_smooth && v.keeps_photons &&
                        light.history.any_focusing() && camera.history.has_events() &&
                        camera.history.only_shiny();
    if (!merges) {
        // If the rule of merges_at() says that photons are merged here, this weight of 0 is wrong.
        if (density > 0) all.push_back({"photons not merged", density, 0});
        return;
    }
    const MergedPhoton photon{.connected = as_float(path.connects(i)) * light.weights.join,
                              .reversed = light.weights.reversed,
                              .shiny = v.is_shiny ? light.weights.shiny : 0.0F,
                              .pdf_to_lamp = as_float(v.pdf_to_lamp),
                              .pdf_to_sensor = as_float(v.pdf_to_sensor),
                              .area = as_float(path.merge_area)};
    add("photons merged at vertex " + std::to_string(i),
        density,
        balance_of_merged_photon(sums_of(path, camera), photon),
        all);
}

// E95 at vertex i.
void add_connected_vertex(const HandMadePath& path, int i, Techniques& all) {
    const double density = path.connects(i);
    if (!(density > 0)) return;
    const HandMadeWalk light = light_walk_at(path, i - 1);
    const HandMadeWalk camera = sensor_walk_at(path, i);
    const HandMadeVertex& z = path.vertex(i);
    const HandMadeVertex& y = path.vertex(i - 1);
    const HandMadeEdge& e = path.edge(i - 1);
    ConnectedVertex c;
    c.density = as_float(density);
    c.joinable =
        light.weights.per_join * as_float(asked_over_edge(path, i - 1, false)) * light.weights.join;
    c.reversed = light.weights.reversed;
    if (y.is_shiny && z.is_shiny) c.shiny = light.weights.shiny;
    c.by_sheet = as_float(light.sheet_join * path.asks_sheet(i));
    c.z_to_y = as_float(z.pdf_to_lamp * e.cos_from / e.distance2());
    c.y_to_z = as_float(y.pdf_to_sensor * e.cos_to / e.distance2());
    c.y_to_lamp = as_float(y.pdf_to_lamp);
    if (light.history.any_focusing()) {
        if (z.is_shiny) c.merging_at_y = as_float(path.merge_area);
        const bool merges_here = merging_may_count(camera.history, Carrying::kRadiance);
        if (merges_here) c.merging_at_z = as_float(path.merge_area);
    }
    c.passes = as_float(e.passes);
    add("stored vertex connected",
        density_by_light_walk(path, path.light_walks, i - 1) * density_by_sensor_walk(path, i) *
            density,
        balance_of_connected_vertex(sums_of(path, camera), c),
        all);
}

// E105, on a path without surfaces.
void add_lamp_at_receptor(const HandMadePath& path, Techniques& all) {
    const HandMadeEdge& e = path.edge(0);
    LampAtReceptor lamp;
    lamp.by_sensor_walk = as_float(met_from_first(path, e.cos_to / kPi));
    if (!path.point_receptor) {
        lamp.by_falling = as_float(emitted(path) * e.cos_to /
                                   (e.distance2() * path.pdf_lamp_point * path.pdf_receptor));
    }
    lamp.passes = as_float(e.passes);
    add("lamp sampled at the receptor",
        path.sensor_walks() * path.sensor_area_density() * path.pdf_lamp_point,
        balance_of_lamp_at_receptor(lamp),
        all);
}

// E106.
void add_fallen_light(const HandMadePath& path, Techniques& all) {
    if (path.point_receptor) return;
    const int n = path.surfaces();
    FallenLight fallen;
    fallen.weights = light_walk_at(path, n + 1).weights.without_merging();
    fallen.first_edge = n == 0;
    fallen.pdf_lamp_point = as_float(path.pdf_lamp_point);
    fallen.pdf_receptor_point = as_float(path.pdf_receptor);
    fallen.pdf_back_along_edge = as_float(path.edge(n).cos_to / kPi);
    fallen.meter_walks = as_float(path.meter_walks);
    fallen.light_walks_per_counted = as_float(path.light_walks / path.light_walks_for_path());
    add("fallen on the receptor",
        density_by_light_walk(path, path.light_walks_for_path(), n + 1),
        balance_of_fallen_light(fallen),
        all);
}

}  // namespace

std::vector<WeighedTechnique> weigh_all_techniques(const HandMadePath& path) {
    Techniques all;
    const int n = path.surfaces();
    add_met_lamp(path, all);
    if (n > 0) {
        add_sampled_lamp(path, all);
        add_sensor_join(path, all);
    }
    if (path.sheet_density > 0 && n >= 2) add_sampled_sheet(path, all);
    if (path.sheet_density > 0 && n == 1 && path.at_meter) add_sheet_at_receptor(path, all);
    for (int i = 1; i < n; ++i) add_merged_photons(path, i, all);
    for (int i = 2; i <= n; ++i) add_connected_vertex(path, i, all);
    if (path.at_meter && n == 0) add_lamp_at_receptor(path, all);
    if (path.at_meter) add_fallen_light(path, all);
    return all;
}

}  // namespace dapple::test
