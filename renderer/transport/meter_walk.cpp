#include "transport/meter_walk.h"

#include "transport/sensor_walk.h"

namespace dapple {

namespace {

// A point of the receptor from which a meter walk begins, and what is collected there directly.
struct ReceptorVisit {
    const Stage& stage;
    const Receptor& receptor;
    const Vertex& vertex;  // the point, facing along the receptor's normal
    Walk& walk;
    std::span<Spectrum> by_fixture;

    // Next-event estimation of one fixture (E61).
    void add_direct_reading(size_t fixture, const std::array<float, 2>& u) const;
    // The same by way of a point drawn on cloth (E71).
    void add_sheet_reading(size_t fixture, const SheetNumbers& u) const;
    void add_all(SensorNumbers& numbers) const;
};

void ReceptorVisit::add_direct_reading(size_t fixture, const std::array<float, 2>& u) const {
    const std::optional<LampAnswer> lamp = ask_lamp_at_receptor(stage, walk, vertex, fixture, u);
    if (!lamp) return;
    const LampLight& light = lamp->light;
    const float cos_front = lamp->wi.z;
    const float pdf_front = cos_front * kInvPiF;
    const float drawn = lamp->drawn();
    float balance = 1;
    if (!stage.partition) {
        AskedAtReceptor asked;
        asked.met = lamp->met(pdf_front, stage.emitters[fixture]);
        if (!receptor.is_point()) {
            asked.fallen = stage.light_walks_per_meter_walk(fixture, true) * light.pdf_area *
                           light.pdf_direction * cos_front / (drawn * receptor.pdf_area());
        }
        asked.passes = lamp->way.probability;
        balance = balance_of_asked_at_receptor(asked);
    }
    by_fixture[fixture] += walk.light.throughput * lamp->way.transmittance *
                           (light.luminance * pdf_front * light.cos_lamp / (drawn * balance));
}

void ReceptorVisit::add_sheet_reading(size_t fixture, const SheetNumbers& u) const {
    const std::optional<SheetPoint> y =
        draw_on_sheet(stage, fixture, vertex.at.position, u.point, walk.light.hero);
    if (!y) return;
    const float cos_front = glm::dot(vertex.at.geometric, y->from.direction);
    if (!(cos_front > 0)) return;
    const std::optional<SheetAnswer> answer = ask_sheet(stage, walk, vertex, fixture, *y, u.lamp);
    if (!answer) return;
    const float pdf_front = cos_front * kInvPiF;
    SheetAtReceptor sheet;
    sheet.met = answer->met;
    sheet.pdf = pdf_front;
    sheet.joined = answer->fallen;
    if (!receptor.is_point()) {
        sheet.falls = answer->walked * cos_front / (square(y->from.distance) * receptor.pdf_area());
    }
    sheet.light_walks = stage.light_walks_per_meter_walk(fixture, false);
    by_fixture[fixture] +=
        walk.light.throughput * answer->light * (pdf_front / balance_of_sheet_at_receptor(sheet));
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

// The walks of one meter in one pass are one sequence of points, scrambled anew each pass.
SensorNumbers make_numbers(const Stage& stage, int meter, int index) {
    const auto name = (static_cast<uint64_t>(meter) << 40U) + static_cast<uint64_t>(index);
    const uint64_t scramble = mix_bits(
        mix_bits(stage.seed, stage.pass),
        mix_bits(static_cast<uint64_t>(meter), static_cast<uint64_t>(Purpose::kMeterWalk)));
    return {RandomStream(stage.seed, stage.pass, name, Purpose::kMeterWalk),
            static_cast<uint32_t>(index),
            scramble};
}

// Gives the walk its first ray. False where it would start along the receptor's face.
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
        follow_sensor_walk(stage, sensor, numbers, by_fixture);
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
