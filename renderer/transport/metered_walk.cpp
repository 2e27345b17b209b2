#include "transport/metered_walk.h"

#include <cmath>

#include "transport/partition.h"
#include "transport/sensor_join.h"

namespace dapple {

uint64_t light_walk_name(int fixture, int index) {
    return (static_cast<uint64_t>(fixture) << 40U) + static_cast<uint64_t>(index);
}

MeteredWalk::MeteredWalk(
    const Stage& stage, int fixture, int index, const LampLight& lamp, float scale)
    : stage_(stage), fixture_(fixture), lamp_(lamp), scale_(scale) {
    if (stage.receptors.empty()) return;
    const auto f = static_cast<size_t>(fixture);
    if (index >= stage.joined_to_meters[f]) return;
    joined_share_ =
        static_cast<float>(stage.light_walks[f]) / static_cast<float>(stage.joined_to_meters[f]);
    random_.emplace(stage.seed, stage.pass, light_walk_name(fixture, index), Purpose::kMeterJoin);
}

void MeteredWalk::join(Walk& walk, const Vertex& vertex, LightSink& sink) {
    for (size_t m = 0; m < stage_.receptors.size(); ++m) {
        const Receptor& receptor = stage_.receptors[m];
        const float u = random_->next();
        const ReceptorPoint at = receptor.sample_point(u, random_->next());
        const Vec3 to_receptor = at.position - vertex.at.position;
        SensorView view;
        view.point = at.position;
        view.distance = glm::length(to_receptor);
        if (!(view.distance > 0)) continue;
        view.to_sensor = to_receptor / view.distance;
        const float cos_front = -glm::dot(view.to_sensor, at.normal);
        if (!(cos_front > 0)) continue;
        const float pdf_direction = cos_front * kInvPiF;
        view.response = receptor.lux_per_walk() * pdf_direction;
        view.pdf_direction = static_cast<float>(stage_.meter_walks) * pdf_direction;
        view.weights = walk.weights.without_merging();
        view.light_walks = joined_share_;
        view.asks_sheets = static_cast<float>(stage_.meter_walks);
        view.caught = receptor.is_point() ? 0.0F : cos_front / receptor.pdf_area();
        Spectrum lux;
        if (join_to_sensor(stage_, walk, vertex, scale_, view, lux)) {
            sink.add_reading(static_cast<int>(m), fixture_, lux);
        }
    }
}

bool MeteredWalk::may_fall(const Walk& walk) const {
    Receptor::Crossing at;
    for (const Receptor& receptor : stage_.receptors) {
        if (receptor.crossed_by(walk.ray, kInfinity, at)) return true;
    }
    return false;
}

void MeteredWalk::fall(const Walk& begun, float reached, LightSink& sink) const {
    // All light walks may come through smooth glass; past anything else only the joined ones count.
    if (!begun.only_smooth && !is_joined()) return;
    if (!counts_fallen(stage_, begun)) return;
    const float share = begun.only_smooth ? 1.0F : joined_share_;
    const Emitter& emitter = stage_.emitters[static_cast<size_t>(fixture_)];
    const auto meter_walks = static_cast<float>(stage_.meter_walks);
    for (size_t m = 0; m < stage_.receptors.size(); ++m) {
        const Receptor& receptor = stage_.receptors[m];
        Receptor::Crossing at;
        if (!receptor.crossed_by(begun.ray, reached - begun.edge_length, at)) continue;
        PartialWeights weights = begun.weights.without_merging();
        weights.arrive(square(begun.edge_length + at.t), at.cos_front);
        // The other ways: the vertex before joined to a point of the receptor, which on the first
        // edge is the lamp asked for by the meter walks; or these walk here from the receptor.
        float joined = receptor.pdf_area() * weights.join;
        if (begun.edge == 1) {
            joined *= meter_walks * share *
                      emitter.pdf_towards(at.at.position, lamp_.position, lamp_.normal);
        } else {
            joined *= 1.0F + meter_walks * share * begun.per_join;
        }
        const float walked =
            meter_walks * receptor.pdf_area() * at.cos_front * kInvPiF * weights.reversed * share;
        sink.add_reading(static_cast<int>(m),
                         fixture_,
                         begun.throughput * (scale_ * share * receptor.lux_per_lumen() /
                                             (1.0F + (stage_.partition ? 0.0F : joined + walked))));
    }
}

}  // namespace dapple
