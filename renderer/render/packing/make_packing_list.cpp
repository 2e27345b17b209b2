#include "render/packing/make_packing_list.h"

#include <algorithm>

#include "fixtures/emitter.h"
#include "fixtures/source_groups.h"
#include "geometry/surfaces_past_fixtures.h"
#include "render/packing/find_cautions.h"
#include "render/packing/find_room_box.h"
#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// Height above the floor, also where a table is between.
std::optional<double> height_of(const Scene& scene,
                                const std::optional<RoomBox>& box,
                                const Point& p) {
    const std::optional<float> floor = floor_under(scene, box, p);
    if (!floor) return std::nullopt;
    return p.y - *floor;
}

// The full angle at half intensity. Nothing for fixtures without a conical beam.
std::optional<double> beam_angle_of(const Fixture& f) {
    if (f.form != FixtureForm::kSpot || f.photometry) return std::nullopt;
    return f.wide_beam_angle > 0 ? f.wide_beam_angle : f.beam_angle;
}

CctDuv colour_of(const Fixture& f) {
    Curve light;
    for (const SourceGroup& group : make_source_groups(f)) light += group.spectrum;
    return cct_duv_of(integrate_xyz(light));
}

PackedFixture plan_fixture(const Scene& scene,
                           const World& world,
                           const std::optional<RoomBox>& box,
                           const Fixture& f) {
    PackedFixture planned;
    planned.name = f.name;
    planned.form = f.form;
    planned.source = f.source;
    planned.position = f.position;
    planned.aim = f.aim;
    planned.height = height_of(scene, box, f.position);
    if (f.form != FixtureForm::kBare) {
        for (const MetSurface& met :
             surfaces_past_fixtures(scene, world, {f.position, f.axis, 0, kInfinity})) {
            planned.meets.push_back({met.name, met.distance});
        }
    }
    planned.beam_angle = beam_angle_of(f);
    const Emitter emitter(f);
    Fixture at_full = f;
    at_full.dimmer = 1;
    at_full.gel = {};
    planned.full_lumens = Emitter(at_full).lumens();
    planned.full_cct_k = f.cct_k;
    planned.lumens = emitter.lumens();
    planned.peak_candela = emitter.peak_candela();
    const CctDuv colour = colour_of(f);
    planned.cct_k = colour.cct_k;
    planned.duv = colour.duv;
    planned.gel = f.gel;
    planned.dimmer = f.dimmer;
    if (f.power_w > 0) planned.power_w = f.power_w;
    planned.supply = f.supply;
    if (f.supply == Supply::kMains) {
        planned.circuit = f.circuit;
        if (f.power_w > 0) planned.current_a = f.power_w / scene.power.volts;
    }
    return planned;
}

void add_to_circuits(const PackedFixture& f, std::vector<CircuitLoad>& circuits) {
    if (f.supply != Supply::kMains) return;
    auto circuit = std::find_if(circuits.begin(), circuits.end(), [&](const CircuitLoad& c) {
        return c.name == f.circuit;
    });
    if (circuit == circuits.end()) {
        circuits.emplace_back().name = f.circuit;
        circuit = circuits.end() - 1;
    }
    circuit->fixtures.push_back(f.name);
    circuit->power_w += f.power_w.value_or(0);
    circuit->current_a += f.current_a.value_or(0);
    if (!f.power_w) ++circuit->without_power;
}

}  // namespace

PackingList make_packing_list(const Scene& scene, const World& world) {
    PackingList list;
    const std::optional<RoomBox> box = find_room_box(scene, world);
    list.title = scene.title;
    list.volts = scene.power.volts;
    if (scene.power.circuit_a > 0) list.circuit_a = scene.power.circuit_a;
    for (const Fixture& fixture : scene.fixtures) {
        if (fixture.is_window) continue;  // windows come last, so the other indices do not change
        list.fixtures.push_back(plan_fixture(scene, world, box, fixture));
        add_to_circuits(list.fixtures.back(), list.circuits);
    }
    for (CircuitLoad& circuit : list.circuits) {
        if (list.circuit_a) circuit.share = circuit.current_a / *list.circuit_a;
    }
    list.cautions = find_cautions(scene, list);
    return list;
}

}  // namespace dapple
