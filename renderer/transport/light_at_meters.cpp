#include "transport/light_at_meters.h"

#include <cmath>

#include "transport/partition.h"
#include "transport/sensor_join.h"
#include "transport/technique_weights.h"

namespace dapple {

uint64_t light_walk_name(int fixture, int index) {
    return (static_cast<uint64_t>(fixture) << 40U) + static_cast<uint64_t>(index);
}

LightAtMeters::LightAtMeters(const Stage& stage, const LightWalkStart& start)
    : stage_(stage), start_(start) {
    if (stage.receptors.empty()) return;
    const auto f = static_cast<size_t>(start.fixture);
    const int joined = stage.walks.joined_to_meters[f];
    if (start.index >= joined) return;
    joined_share_ = stage.light_walks(f) / static_cast<float>(joined);
    const uint64_t name = light_walk_name(start.fixture, start.index);
    random_.emplace(stage.seed, stage.pass, name, Purpose::kMeterJoin);
}

void LightAtMeters::join(Walk& walk, const Vertex& vertex, LightSink& sink) {
    const auto meter_walks = static_cast<float>(stage_.walks.per_meter);
    for (size_t m = 0; m < stage_.receptors.size(); ++m) {
        const Receptor& receptor = stage_.receptors[m];
        const float u = random_->next();
        const ReceptorPoint at = receptor.sample_point(u, random_->next());
        const Vec3 to_receptor = at.position - vertex.at.position;
        const float distance = glm::length(to_receptor);
        if (!(distance > 0)) continue;
        SensorView view;
        view.target = {at.position, to_receptor / distance, distance};
        const float cos_front = -glm::dot(view.target.direction, at.normal);
        if (!(cos_front > 0)) continue;
        const float pdf_direction = cos_front * kInvPiF;
        view.response = receptor.lux_per_walk() * pdf_direction;
        view.pdf_direction = meter_walks * pdf_direction;
        view.weights = walk.weights.without_merging();
        view.light_walks_per_joined = joined_share_;
        if (walk.edge == 1 && stage_.sheets) {
            const auto f = static_cast<size_t>(start_.fixture);
            view.by_sheet = meter_walks * stage_.sheets->density(f, vertex.at);
        }
        view.by_falling = receptor.is_point() ? 0.0F : cos_front / receptor.pdf_area();
        const JoinedVertex joined{vertex, walk.light.throughput, start_.lumens};
        if (const auto lux = join_to_sensor(stage_, walk, joined, view)) {
            sink.add_reading(static_cast<int>(m), start_.fixture, *lux);
        }
    }
}

bool LightAtMeters::may_meet_receptor(const Walk& walk) const {
    Receptor::Crossing at;
    for (const Receptor& receptor : stage_.receptors) {
        if (receptor.crossed_by(walk.ray, kInfinity, at)) return true;
    }
    return false;
}

void LightAtMeters::add_fallen_light(const Walk& before, float edge_length, LightSink& sink) const {
    // Every light walk counts until its first rough event. After that only joined walks count.
    const bool only_smooth = before.history.only_smooth();
    if (!only_smooth && !is_joined()) return;
    if (!counts_fallen(stage_, before)) return;
    const float share = only_smooth ? 1.0F : joined_share_;
    const LampLight& lamp = start_.lamp;
    const Emitter& emitter = stage_.emitters[static_cast<size_t>(start_.fixture)];
    for (size_t m = 0; m < stage_.receptors.size(); ++m) {
        const Receptor& receptor = stage_.receptors[m];
        Receptor::Crossing at;
        if (!receptor.crossed_by(before.ray, edge_length - before.edge_length, at)) continue;
        float balance = 1;
        if (!stage_.partition) {
            FallenLight fallen;
            fallen.weights = before.weights.without_merging();
            fallen.weights.arrive(square(before.edge_length + at.t), at.cos_front);
            fallen.first_edge = before.edge == 1;
            fallen.pdf_lamp_point = emitter.pdf_towards(at.at.position, lamp.position, lamp.normal);
            fallen.pdf_receptor_point = receptor.pdf_area();
            fallen.pdf_back_along_edge = at.cos_front * kInvPiF;
            fallen.meter_walks = static_cast<float>(stage_.walks.per_meter);
            fallen.light_walks_per_counted = share;
            balance = balance_of_fallen_light(fallen);
        }
        const Spectrum passed =
            stage_.haze ? passed_by_space(
                              stage_, before.media, before.ray.origin, before.ray.direction, at.t)
                        : Spectrum(1.0F);
        sink.add_reading(static_cast<int>(m),
                         start_.fixture,
                         before.light.throughput * passed *
                             (start_.lumens * share * receptor.lux_per_lumen() / balance));
    }
}

}  // namespace dapple
