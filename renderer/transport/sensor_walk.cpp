#include "transport/sensor_walk.h"

#include <algorithm>

#include "transport/photon_differential.h"
#include "transport/sensor_visit.h"
#include "transport/soft_splat.h"

namespace dapple {

namespace {

// Follows how glass spreads the pixel and the wavelengths of a camera walk (E68).
class CameraDispersal {
  public:
    CameraDispersal(const Stage& stage, const SensorWalk& sensor)
        : stage_(stage),
          follows_(sensor.from_lens() && stage.dispersion_limit > 0),
          pixel_solid_angle_(sensor.walk.weights.join) {}

    void arrive(const Vertex& vertex, float distance, Walk& walk) {
        if (!follows_) return;
        const bool is_smooth = !vertex.is_lamp() && is_delta(vertex.bsdf);
        if (walk.edge == 1) {
            // If the first surface is rough, as for most walks, there is nothing to follow.
            if (!is_smooth) return;
            differential_.begin(-vertex.wo_world, pixel_solid_angle_);
            distance = walk.edge_length;
        }
        differential_.arrive(distance, -vertex.wo_world, vertex.at.geometric);
        if (!walk.light.monochromatic || is_smooth) return;
        const float pixel = std::max(glm::length(differential_.half_axis(0)),
                                     glm::length(differential_.half_axis(1)));
        const float limit = kShare * stage_.dispersion_limit * pixel;
        if (dispersed_m(stage_, walk, differential_) < limit) {
            walk.light.stand_for_all_wavelengths();
        }
    }

    void leave(const Vertex& vertex, const Walk& walk) {
        if (!follows_) return;
        differential_.leave(stage_, vertex, walk);
        follows_ = differential_.is_known();
    }

  private:
    static constexpr float kShare = 0.25F;  // of the limit for splats

    const Stage& stage_;
    bool follows_;
    float pixel_solid_angle_;
    PhotonDifferential differential_;
};

SensorPlace place_of(const Stage& stage, const SensorWalk& sensor, const Vertex& vertex) {
    SensorPlace place;
    if (is_delta(vertex.bsdf)) return place;
    const bool seen_first = sensor.walk.edge == 1 && sensor.from_lens();
    place.asked = stage.asked_at(vertex.at, seen_first);
    // A light walk that comes here cannot know whether the lens sees it in a gloss, so the weights
    // take it for any later vertex. They still sum to 1.
    const bool more = seen_first || (sensor.from_lens() && sensor.walk.history.only_shiny());
    place.asks = more ? stage.asked_at(vertex.at, true) : place.asked;
    if (sensor.from_lens() && sensor.walk.history.only_smooth()) {
        place.receiver_cell = receiver_cell_of(stage, vertex);
    }
    return place;
}

}  // namespace

void follow_sensor_walk(const Stage& stage,
                        SensorWalk& sensor,
                        SensorNumbers& numbers,
                        std::span<Spectrum> by_fixture) {
    Walk& walk = sensor.walk;
    Vertex vertex;
    CameraDispersal dispersal(stage, sensor);
    float length_before = 0;  // m, length of the edge before its last ray
    while (find_next_vertex(stage, walk, vertex)) {
        dispersal.arrive(vertex, walk.edge_length - length_before, walk);
        length_before = walk.edge_length;
        SensorVisit visit{stage, sensor, vertex, by_fixture};
        if (vertex.is_lamp()) {
            visit.add_emission();
            break;
        }
        const bool seen_first = walk.edge == 1 && sensor.from_lens();
        if (seen_first) sensor.soft_weight = soft_splat_weight(stage, vertex.bsdf);
        if (sensor.before.receiver_cell >= 0) {
            walk.weights.per_inner = stage.connection_density(sensor.before.receiver_cell,
                                                              light_cell_of(stage, vertex));
        }
        const SensorPlace place = place_of(stage, sensor, vertex);
        if (walk.edge <= stage.max_bounces && !is_delta(vertex.bsdf)) {
            visit.add_light(place, numbers);
        }
        LastSheet here{
            vertex.at.sheet, vertex.at.barycentric, walk.weights.join, sensor.before.asked};
        if (seen_first) here.sheet = -1;
        const Vec3 u = numbers.scatter(walk.edge);
        const ScatterResult result =
            scatter(stage, walk, vertex, Carrying::kRadiance, u, numbers.random);
        if (result == ScatterResult::kEnded) break;
        if (result == ScatterResult::kScattered) {
            sensor.last_sheet = here;
            sensor.before = place;
            dispersal.leave(vertex, walk);
            length_before = 0;
        }
    }
}

}  // namespace dapple
