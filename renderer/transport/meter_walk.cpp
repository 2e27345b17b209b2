#include "transport/meter_walk.h"

#include <cmath>

#include "transport/sensor_walk.h"
#include "transport/sheet_join.h"

namespace dapple {

namespace {

// Next-event estimation of one fixture at the receptor itself (E61).
void add_direct_reading(const Stage& stage,
                        const Receptor& receptor,
                        const Vertex& vertex,
                        Walk& walk,
                        size_t fixture,
                        const std::array<float, 2>& u,
                        std::span<Spectrum> by_fixture) {
    const Emitter& emitter = stage.emitters[fixture];
    LampLight light;
    if (!emitter.sample_towards(vertex.at.position, u[0], u[1], light)) return;
    const float cos_front = -glm::dot(vertex.at.geometric, light.direction);
    if (!(cos_front > 0)) return;
    const Vec3 to_lamp = light.position - vertex.at.position;
    const float distance2 = glm::dot(to_lamp, to_lamp);
    const float distance = std::sqrt(distance2);
    Connection connection;
    if (!connect(stage, walk, vertex, light.position, -light.direction, distance, connection)) {
        return;
    }
    const float cos_lamp = emitter.is_point() ? 1.0F : glm::dot(light.normal, light.direction);
    const float pdf_front = cos_front * kInvPiF;
    // The other ways to the same path, over the way taken: the meter walk meets the lamp, the light
    // walk falls on the receptor.
    const float met =
        emitter.is_point() ? 0.0F : pdf_front * cos_lamp / (distance2 * light.pdf_towards);
    const float fallen = receptor.is_point()
                             ? 0.0F
                             : stage.light_walks_per_meter_walk(fixture, true) * light.pdf_area *
                                   light.pdf_direction * cos_front /
                                   (distance2 * light.pdf_towards * receptor.pdf_area());
    const float others = stage.partition ? 0.0F : connection.probability * (met + fallen);
    by_fixture[fixture] +=
        walk.throughput * connection.transmittance *
        (light.luminance * pdf_front * cos_lamp / (distance2 * light.pdf_towards * (1 + others)));
}

// The same by way of a point drawn on cloth (E71).
void add_sheet_reading(const Stage& stage,
                       const Receptor& receptor,
                       const Vertex& vertex,
                       Walk& walk,
                       size_t fixture,
                       const SensorNumbers::Sheet& u,
                       std::span<Spectrum> by_fixture) {
    SheetPoint sheet;
    if (!draw_on_sheet(stage, fixture, vertex.at.position, u.point, walk.hero, sheet)) return;
    const float cos_front = glm::dot(vertex.at.geometric, sheet.direction);
    if (!(cos_front > 0)) return;
    SheetLight from;
    if (!ask_sheet(stage, walk, vertex, fixture, sheet, u.lamp, from)) return;
    const float pdf_front = cos_front * kInvPiF;
    // A light walk is joined to the receptor from the cloth, or falls on it.
    const float falls = receptor.is_point() ? 0.0F
                                            : from.walked * cos_front /
                                                  (square(sheet.distance) * receptor.pdf_area());
    const float others = from.met * pdf_front +
                         stage.light_walks_per_meter_walk(fixture, false) * (from.fallen + falls);
    by_fixture[fixture] += walk.throughput * from.light * (pdf_front / (1.0F + others));
}

}  // namespace

void trace_meter_walk(
    const Stage& stage, int meter, int index, std::span<Spectrum> by_fixture, WalkCounts& counts) {
    const Receptor& receptor = stage.receptors[static_cast<size_t>(meter)];
    const auto name = (static_cast<uint64_t>(meter) << 40U) + static_cast<uint64_t>(index);
    const uint64_t of_pass = mix_bits(
        mix_bits(stage.seed, stage.pass),
        mix_bits(static_cast<uint64_t>(meter), static_cast<uint64_t>(Purpose::kMeterWalk)));
    // The walks of one pass are one sequence of points, scrambled anew each pass.
    SensorNumbers numbers(RandomStream(stage.seed, stage.pass, name, Purpose::kMeterWalk),
                          static_cast<uint32_t>(index),
                          of_pass);
    const auto u = numbers.start();
    const ReceptorPoint from = receptor.sample_point(u[0], u[1]);
    Vertex vertex;
    vertex.at.position = from.position;
    vertex.at.geometric = vertex.at.shading = from.normal;
    vertex.wo_world = from.normal;
    Walk walk;
    walk.hero = static_cast<int>((static_cast<uint32_t>(index) + stage.pass) % kSpectrumSize);
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        if (!stage.emitters[f].may_reach(from.position)) continue;
        add_direct_reading(stage, receptor, vertex, walk, f, numbers.lamp(0, f), by_fixture);
    }
    for (size_t f = 0; stage.sheets && f < stage.emitters.size(); ++f) {
        if (!stage.sheets->lit_by(f)) continue;
        add_sheet_reading(stage, receptor, vertex, walk, f, numbers.sheet(0, f), by_fixture);
    }
    const Direction direction = Receptor::sample_direction(from, u[2], u[3]);
    const float cos_front = glm::dot(from.normal, direction);
    if (cos_front > 0) {
        const float pdf_direction = cos_front * kInvPiF;
        walk.ray = Ray{offset_origin(vertex.at, direction), direction, 0.0F, kInfinity};
        walk.last_position = from.position;
        walk.weights.join = 1.0F / pdf_direction;
        if (!receptor.is_point()) {
            walk.weights.reversed = cos_front / (pdf_direction * receptor.pdf_area());
        }
        const SensorEnd end =
            receptor.is_point() ? SensorEnd::kPointReceptor : SensorEnd::kReceptor;
        follow_sensor_walk(stage, end, walk, numbers, by_fixture);
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
