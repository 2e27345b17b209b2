#include "transport/sensor_walk.h"

#include <algorithm>

#include "transport/haze/cross_haze.h"
#include "transport/photon_differential.h"
#include "transport/sensor_visit.h"
#include "transport/soft_splat.h"

namespace dapple {

namespace {

// Follows how glass spreads the pixel and the wavelengths of a camera walk (E79).
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

    // The walk was scattered by haze.
    void forget() { follows_ = false; }

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

// Follows one walk, which can split in two.
class Follower {
  public:
    Follower(const Stage& stage, SensorNumbers& numbers, const SensorLight& light)
        : stage_(stage), numbers_(numbers), light_(light) {}

    void follow(SensorWalk& sensor, CameraDispersal dispersal, int splits) {
        Walk& walk = sensor.walk;
        Vertex vertex;
        float length_before = 0;  // m, length of the edge before its last ray
        while (next_vertex(sensor, vertex, dispersal, length_before)) {
            dispersal.arrive(vertex, walk.edge_length - length_before, walk);
            length_before = walk.edge_length;
            if (vertex.is_lamp()) {
                SensorVisit{stage_, sensor, vertex, light_.of(walk.history)}.add_emission();
                return;
            }
            const Places places = collect_light(sensor, vertex);
            const Vec3 u = numbers_.scatter(walk.edge);
            const float gloss = splits > 0 ? split_share(sensor, vertex) : 0.0F;
            if (gloss > 0.0F && gloss < 1.0F) {
                split(sensor, vertex, places, dispersal, {gloss, u, splits});
                return;
            }
            const ScatterResult result = leave(sensor, vertex, places, dispersal, u);
            if (result == ScatterResult::kEnded) return;
            if (result == ScatterResult::kScattered) length_before = 0;
        }
    }

  private:
    // What the next vertex must know of the present one.
    struct Places {
        SensorPlace place;
        LastSheet sheet;
    };
    struct Split {
        float gloss = 0;  // probability of the first branch
        Vec3 u{0};
        int splits = 0;
    };

    // Continues the walk to its next surface. Haze may scatter it on the way.
    bool next_vertex(SensorWalk& sensor,
                     Vertex& vertex,
                     CameraDispersal& dispersal,
                     float& length_before) {
        if (!stage_.haze) return find_next_vertex(stage_, sensor.walk, vertex);
        LegEnd end = LegEnd::kHaze;
        while (end == LegEnd::kHaze) {
            HazeBranch branch;
            end = cross_haze(stage_, sensor, vertex, numbers_, light_, branch);
            if (branch.walk) follow_branch(branch, dispersal, sensor);
            if (end != LegEnd::kHaze) break;
            dispersal.forget();
            length_before = 0;
        }
        return end == LegEnd::kSurface;
    }

    void follow_branch(HazeBranch& branch, CameraDispersal dispersal, SensorWalk& sensor) {
        dispersal.forget();
        Follower(stage_, numbers_, {branch.by_fixture, {}, {}, {}})
            .follow(*branch.walk, dispersal, 0);
        sensor.walk.rays += branch.walk->walk.rays;
        sensor.walk.nonfinite += branch.walk->walk.nonfinite;
    }

    Places collect_light(SensorWalk& sensor, const Vertex& vertex) {
        Walk& walk = sensor.walk;
        const bool seen_first = walk.edge == 1 && sensor.from_lens();
        if (seen_first) sensor.soft_weight = soft_splat_weight(stage_, vertex.bsdf);
        if (sensor.before.receiver_cell >= 0) {
            walk.weights.per_inner = stage_.connection_density(sensor.before.receiver_cell,
                                                               light_cell_of(stage_, vertex));
        }
        const SensorPlace place = place_of(stage_, sensor, vertex);
        if (walk.edge <= stage_.max_bounces && !is_delta(vertex.bsdf)) {
            const std::span<Spectrum> to = light_.of(walk.history);
            SensorVisit{stage_, sensor, vertex, to}.add_light(place, numbers_);
        }
        LastSheet here{
            vertex.at.sheet, vertex.at.barycentric, walk.weights.join, sensor.before.asked};
        if (seen_first) here.sheet = -1;
        return {place, here};
    }

    ScatterResult leave(SensorWalk& sensor,
                        const Vertex& vertex,
                        const Places& places,
                        CameraDispersal& dispersal,
                        const Vec3& u) {
        const ScatterResult result =
            scatter(stage_, sensor.walk, vertex, Carrying::kRadiance, u, numbers_.random);
        if (result == ScatterResult::kScattered) {
            sensor.last_sheet = places.sheet;
            sensor.before = places.place;
            dispersal.leave(vertex, sensor.walk);
        }
        return result;
    }

    // The share of the gloss where the walk splits; 0 where it does not. A walk splits while it has
    // met only shiny surfaces: what the lens sees in a gloss or through glass is then free of the
    // noise of that choice.
    static float split_share(const SensorWalk& sensor, const Vertex& vertex) {
        if (!sensor.from_lens() || !sensor.walk.history.only_shiny()) return 0;
        if (pass_probability(vertex) > 0.0F) return 0;
        return gloss_share(vertex.bsdf, glm::dot(vertex.at.shading, vertex.wo_world));
    }

    // Follows both branches, each with its probability as its share of the light. This is
    // stratified sampling of the choice between them, so no weight changes.
    void split(SensorWalk& sensor,
               const Vertex& vertex,
               const Places& places,
               const CameraDispersal& dispersal,
               const Split& split) {
        for (const bool is_gloss : {true, false}) {
            const float probability = is_gloss ? split.gloss : 1.0F - split.gloss;
            const float z =
                is_gloss ? split.gloss * split.u.z : split.gloss + probability * split.u.z;
            SensorWalk branch = sensor;
            branch.walk.rays = branch.walk.nonfinite = 0;
            branch.walk.light.multiply(Spectrum(probability));
            CameraDispersal branch_dispersal = dispersal;
            const Vec3 u(split.u.x, split.u.y, std::min(z, kOneMinusEpsilon));
            const ScatterResult result = leave(branch, vertex, places, branch_dispersal, u);
            if (result != ScatterResult::kEnded) {
                follow(branch, branch_dispersal, split.splits - 1);
            }
            sensor.walk.rays += branch.walk.rays;
            sensor.walk.nonfinite += branch.walk.nonfinite;
        }
    }

    const Stage& stage_;
    SensorNumbers& numbers_;
    SensorLight light_;
};

}  // namespace

void follow_sensor_walk(const Stage& stage,
                        SensorWalk& sensor,
                        SensorNumbers& numbers,
                        const SensorLight& light,
                        int splits) {
    Follower(stage, numbers, light).follow(sensor, CameraDispersal(stage, sensor), splits);
}

}  // namespace dapple
