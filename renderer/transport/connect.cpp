#include "transport/connect.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

// Transmittance of the medium or of the haze between the vertex and the target.
Spectrum passed_by_medium(const Stage& stage,
                          const Walk& walk,
                          const Vertex& vertex,
                          const ConnectionTarget& target) {
    MediumStack media = walk.media;
    const float side = glm::dot(vertex.at.geometric, target.direction);
    const bool transmitted = side * glm::dot(vertex.at.geometric, vertex.wo_world) < 0.0F;
    if (transmitted && is_boundary(stage, vertex.at.material)) {
        cross_boundary(stage, media, vertex.at.material, side < 0.0F);
    }
    return passed_by_space(stage, media, vertex.at.position, target.direction, target.distance);
}

// Multiplies the connection by the transmittances of the see-through surfaces on the way. `ray`
// ends `shorter` m before the target. False if one of the surfaces lets nothing pass.
bool pass_see_through(const Stage& stage,
                      const ConnectionTarget& target,
                      float shorter,
                      int hero,
                      Ray ray,
                      Connection& connection) {
    for (int passed = 0; passed < kMostPassed; ++passed) {
        Hit hit;
        ray.t_max = glm::dot(target.point - ray.origin, target.direction) - shorter;
        if (ray.t_max <= 0.0F || !stage.world.closest_see_through(ray, hit)) return true;
        const SurfacePoint at = stage.world.surface_at(ray, hit);
        Vertex through;
        if (!see_vertex(stage, target.direction, at, hero, through)) return false;
        const float q = straight_through_probability(through.bsdf, through.wo());
        if (q <= 0.0F) return false;
        connection.transmittance *= straight_through(through.bsdf, through.wo());
        connection.probability *= q;
        ray.origin = offset_origin(at, target.direction);
    }
    return false;
}

}  // namespace

std::optional<Connection> connect(const Stage& stage,
                                  Walk& walk,
                                  const Vertex& vertex,
                                  const ConnectionTarget& target) {
    Ray ray;
    ray.origin = offset_origin(vertex.at, target.direction);
    ray.direction = target.direction;
    // The ray ends before its target by more than the rounding error of the coordinates, so that it
    // does not meet the target itself.
    const float shorter = std::max(1e-4F * target.distance, 0x1p-18F * glm::length(target.point));
    ray.t_max = target.distance - shorter;
    ++walk.rays;
    if (stage.world.blocked(ray)) return std::nullopt;

    Connection connection;
    if (!walk.media.empty() || stage.haze) {
        connection.transmittance = passed_by_medium(stage, walk, vertex, target);
    }
    if (!pass_see_through(stage, target, shorter, walk.light.hero, ray, connection)) {
        return std::nullopt;
    }
    return connection;
}

}  // namespace dapple
