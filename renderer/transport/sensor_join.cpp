#include "transport/sensor_join.h"

#include <cmath>

namespace dapple {

bool join_to_sensor(const Stage& stage,
                    Walk& walk,
                    const Vertex& vertex,
                    float scale,
                    const SensorView& sensor,
                    Spectrum& reading) {
    // The frame that a walk coming from the sensor would use.
    const bool sees_shading = glm::dot(vertex.interpolated(), sensor.to_sensor) *
                                  glm::dot(vertex.at.geometric, sensor.to_sensor) >
                              0.0F;
    if (sees_shading && vertex.shading_faces_away) return false;
    const Frame frame = sees_shading ? vertex.frame : Frame(vertex.at.geometric);
    const Direction wo = frame.to_local(vertex.wo_world);
    const Direction wi = frame.to_local(sensor.to_sensor);
    if (!sides_agree(vertex, sensor.to_sensor, wi.z)) return false;
    const Spectrum f = eval(vertex.bsdf, wo, wi, Carrying::kFlux);
    if (f.is_black()) return false;
    Connection connection;
    if (!connect(
            stage, walk, vertex, sensor.point, sensor.to_sensor, sensor.distance, connection)) {
        return false;
    }
    // Per m² here: the cosine at this point and the adjoint correction for shading normals make
    // |wo·ns| / |wo·ng| (Veach 1997, section 5.3).
    const float per_area =
        std::abs(glm::dot(vertex.at.geometric, sensor.to_sensor)) / square(sensor.distance);
    const float adjoint = std::abs(wo.z) / vertex.cos_geometric;
    const PartialWeights& w = sensor.weights;
    const float joinable = walk.per_join * w.join * sensor.light_walks;
    float others = sensor.pdf_direction * per_area *
                   (joinable + (w.reversed + (is_shiny(vertex.bsdf) ? w.shiny : 0.0F)) *
                                   sensor.light_walks * pdf(vertex.bsdf, wi, wo));
    if (sensor.caught > 0) {
        others += pdf(vertex.bsdf, wo, wi) * sensor.caught / square(sensor.distance);
    }
    if (walk.edge == 1 && sensor.asks_sheets > 0) {
        others += joinable * sensor.asks_sheets * walk.sheet_density;
    }
    others /= sensor.soft_weight;
    if (stage.partition) others = 0;
    reading = walk.throughput * f * connection.transmittance *
              (scale * sensor.light_walks * adjoint * sensor.response * per_area /
               (1.0F + connection.probability * others));
    return true;
}

}  // namespace dapple
