#include "transport/sensor_join.h"

#include <cmath>

#include "transport/technique_weights.h"

namespace dapple {

std::optional<JoinDirections> join_directions(const Vertex& vertex, const Direction& to_sensor) {
    const bool sees_shading =
        glm::dot(vertex.mesh_shading, to_sensor) * glm::dot(vertex.at.geometric, to_sensor) > 0.0F;
    if (sees_shading && vertex.shading_faces_away) return std::nullopt;
    const Frame frame = sees_shading ? vertex.frame() : Frame(vertex.at.geometric);
    const JoinDirections in{frame.to_local(vertex.wo_world), frame.to_local(to_sensor)};
    if (!sides_agree(vertex, to_sensor, in.wi.z)) return std::nullopt;
    return in;
}

std::optional<Spectrum> join_to_sensor(const Stage& stage,
                                       Walk& walk,
                                       const JoinedVertex& joined,
                                       const SensorView& sensor) {
    const Vertex& vertex = joined.vertex;
    const Direction& to_sensor = sensor.target.direction;
    const std::optional<JoinDirections> in = join_directions(vertex, to_sensor);
    if (!in) return std::nullopt;
    const Spectrum f = eval(vertex.bsdf, in->wo, in->wi, Carrying::kFlux);
    if (f.is_black()) return std::nullopt;
    const std::optional<Connection> way = connect(stage, walk, vertex, sensor.target);
    if (!way) return std::nullopt;
    // `per_area` turns densities per sr at the sensor into densities per m² at the vertex. The
    // cosine at the vertex and the adjoint correction for shading normals together make |wo·ns| /
    // |wo·ng| (Veach 1997, section 5.3).
    const float distance2 = square(sensor.target.distance);
    const float per_area = std::abs(glm::dot(vertex.at.geometric, to_sensor)) / distance2;
    const float adjoint = std::abs(in->wo.z) / vertex.cos_geometric;
    float balance = 1;
    const bool may_fall = sensor.by_falling > 0;
    if (!stage.partition) {
        balance = balance_of_sensor_join(
            {.weights = sensor.weights,
             .vertex_is_shiny = is_shiny(vertex.bsdf),
             .pdf_to_lamp = pdf(vertex.bsdf, in->wi, in->wo),
             .pdf_to_sensor = may_fall ? pdf(vertex.bsdf, in->wo, in->wi) : 0.0F,
             .by_sensor_walk = sensor.pdf_direction * per_area,
             .light_walks_per_joined = sensor.light_walks_per_joined,
             .by_falling = sensor.by_falling,
             .distance2 = distance2,
             .by_sheet = sensor.by_sheet,
             .passes = way->probability,
             .soft_weight = sensor.soft_weight});
    }
    return joined.throughput * f * way->transmittance *
           (joined.lumens * sensor.light_walks_per_joined * adjoint * sensor.response * per_area /
            balance);
}

}  // namespace dapple
