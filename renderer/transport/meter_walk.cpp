#include "transport/meter_walk.h"

#include "transport/sensor_walk.h"

namespace dapple {

namespace {

// The point of the receptor where a meter walk starts. The walk collects the light of all lamps
// there.
struct ReceptorVisit {
    const Stage& stage;
    const Receptor& receptor;
    const Vertex& vertex;  // the point, facing along the receptor's normal
    Walk& walk;
    std::span<Spectrum> by_fixture;

    // Next-event estimation of one fixture (E105).
    void add_direct_reading(size_t fixture, const std::array<float, 2>& u) const;
    // The light of one fixture by way of a point sampled on cloth (E89).
    void add_sheet_reading(size_t fixture, const SheetNumbers& u) const;
    void add_all(SensorNumbers& numbers) const;
};

void ReceptorVisit::add_direct_reading(size_t fixture, const std::array<float, 2>& u) const {
    const std::optional<DirectLight> lamp =
        sample_direct_light_at_receptor(stage, walk, vertex, fixture, u);
    if (!lamp) return;
    const LampLight& light = lamp->light;
    const float cos_front = lamp->wi.z;
    const float pdf_front = cos_front * kInvPiF;
    const float pt_d2 = lamp->pt_d2();
    float balance = 1;
    if (!stage.partition) {
        LampAtReceptor sampled;
        sampled.by_sensor_walk = lamp->met(pdf_front, stage.emitters[fixture]);
        if (!receptor.is_point()) {
            sampled.by_falling = stage.light_walks_per_meter_walk(fixture, true) * light.pdf_area *
                                 light.pdf_direction * cos_front / (pt_d2 * receptor.pdf_area());
        }
        sampled.passes = lamp->way.probability;
        balance = balance_of_lamp_at_receptor(sampled);
    }
    by_fixture[fixture] += walk.light.throughput * lamp->way.transmittance *
                           (light.luminance * pdf_front * light.cos_lamp / (pt_d2 * balance));
}

void ReceptorVisit::add_sheet_reading(size_t fixture, const SheetNumbers& u) const {
    const std::optional<SheetPoint> y =
        sample_sheet_point(stage, fixture, vertex.at.position, u.point, walk.light.hero);
    if (!y) return;
    const float cos_front = glm::dot(vertex.at.geometric, y->from_z.direction);
    if (!(cos_front > 0)) return;
    const std::optional<SheetLight> by_sheet =
        sample_sheet_light(stage, walk, vertex, fixture, *y, u.lamp);
    if (!by_sheet) return;
    const float pdf_front = cos_front * kInvPiF;
    SheetAtReceptor sheet;
    sheet.by_sensor_walk = by_sheet->met;
    sheet.pdf_to_cloth = pdf_front;
    sheet.by_joining = by_sheet->reached;
    if (!receptor.is_point()) {
        sheet.by_falling =
            by_sheet->walked * cos_front / (square(y->from_z.distance) * receptor.pdf_area());
    }
    sheet.light_walks_per_meter_walk = stage.light_walks_per_meter_walk(fixture, false);
    by_fixture[fixture] +=
        walk.light.throughput * by_sheet->light * (pdf_front / balance_of_sheet_at_receptor(sheet));
}

void ReceptorVisit::add_all(SensorNumbers& numbers) const {
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        if (!stage.emitters[f].may_reach(vertex.at.position)) continue;
        add_direct_reading(f, numbers.lamp(0, f));
    }
    for (size_t f = 0; stage.sheets && f < stage.emitters.size(); ++f) {
        if (!stage.sheets->lit_by(f)) continue;
        add_sheet_reading(f, numbers.sheet(0, f));
    }
}

// The walks of one meter in one pass use successive points of one sequence. Each pass scrambles the
// sequence anew.
SensorNumbers make_numbers(const Stage& stage, int meter, int index) {
    const auto name = (static_cast<uint64_t>(meter) << 40U) + static_cast<uint64_t>(index);
    const uint64_t scramble = mix_bits(
        mix_bits(stage.seed, stage.pass),
        mix_bits(static_cast<uint64_t>(meter), static_cast<uint64_t>(Purpose::kMeterWalk)));
    return {RandomStream(stage.seed, stage.pass, name, Purpose::kMeterWalk),
            static_cast<uint32_t>(index),
            scramble};
}

// Sets the walk's first ray. False if the ray would start along the receptor's face.
bool leave_receptor(const ReceptorVisit& visit,
                    const ReceptorPoint& from,
                    const Direction& direction) {
    const float cos_front = glm::dot(from.normal, direction);
    if (!(cos_front > 0)) return false;
    const float pdf_direction = cos_front * kInvPiF;
    Walk& walk = visit.walk;
    walk.ray = Ray{offset_origin(visit.vertex.at, direction), direction, 0.0F, kInfinity};
    walk.last_position = from.position;
    walk.weights.join = 1.0F / pdf_direction;
    if (!visit.receptor.is_point()) {
        walk.weights.reversed = cos_front / (pdf_direction * visit.receptor.pdf_area());
    }
    return true;
}

}  // namespace

void trace_meter_walk(
    const Stage& stage, int meter, int index, std::span<Spectrum> by_fixture, WalkCounts& counts) {
    const Receptor& receptor = stage.receptors[static_cast<size_t>(meter)];
    SensorNumbers numbers = make_numbers(stage, meter, index);
    const auto u = numbers.start();
    const ReceptorPoint from = receptor.sample_point(u[0], u[1]);
    Vertex vertex;
    vertex.at.position = from.position;
    vertex.at.geometric = vertex.at.shading = from.normal;
    vertex.wo_world = from.normal;
    SensorWalk sensor;
    sensor.end = receptor.is_point() ? SensorEnd::kPointReceptor : SensorEnd::kReceptor;
    Walk& walk = sensor.walk;
    walk.light.hero = static_cast<int>((static_cast<uint32_t>(index) + stage.pass) % kSpectrumSize);
    const ReceptorVisit visit{stage, receptor, vertex, walk, by_fixture};
    visit.add_all(numbers);
    const Direction direction = Receptor::sample_direction(from, u[2], u[3]);
    if (leave_receptor(visit, from, direction)) {
        follow_sensor_walk(stage, sensor, numbers, {by_fixture, {}, {}, {}});
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
