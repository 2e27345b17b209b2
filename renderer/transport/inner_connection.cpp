#include "transport/inner_connection.h"

#include <cmath>

#include "transport/sensor_join.h"

namespace dapple {

std::optional<InnerConnection> prepare_connection(const Stage& stage,
                                                  const Walk& walk,
                                                  const Vertex& z,
                                                  const StoredVertex& y) {
    const Vec3 to_y = y.at.position - z.at.position;
    const float distance2 = glm::dot(to_y, to_y);
    if (!(distance2 > 0)) return std::nullopt;
    const float distance = std::sqrt(distance2);
    const ConnectionTarget target{y.at.position, to_y / distance, distance};
    const Direction wi = z.frame().to_local(target.direction);
    if (!sides_agree(z, target.direction, wi.z)) return std::nullopt;
    const Spectrum f_z = eval(z.bsdf, z.wo(), wi, Carrying::kRadiance);
    if (f_z.is_black()) return std::nullopt;
    Vertex at_y;
    if (!see_vertex(stage, -y.wo.unpacked(), y.at, walk.light.hero, at_y)) return std::nullopt;
    const std::optional<JoinDirections> in = join_directions(at_y, -target.direction);
    if (!in) return std::nullopt;
    const Spectrum f_y = eval(at_y.bsdf, in->wo, in->wi, Carrying::kFlux);
    if (f_y.is_black()) return std::nullopt;
    const float y_per_area = std::abs(glm::dot(y.at.geometric, target.direction)) / distance2;
    const float z_per_area = std::abs(glm::dot(z.at.geometric, target.direction)) / distance2;
    const float adjoint = std::abs(in->wo.z) / at_y.cos_geometric;  // as in E90
    InnerConnection inner;
    inner.target = target;
    inner.light = f_z * f_y * y.flux.unpacked() * (std::abs(wi.z) * y_per_area * adjoint);
    inner.z_to_y = pdf(z.bsdf, z.wo(), wi) * y_per_area;
    inner.y_to_z = pdf(at_y.bsdf, in->wo, in->wi) * z_per_area;
    inner.y_to_lamp = pdf(at_y.bsdf, in->wi, in->wo);
    return inner;
}

bool pass_connection(const Stage& stage, Walk& walk, const Vertex& z, InnerConnection& inner) {
    const std::optional<Connection> way = connect(stage, walk, z, inner.target);
    if (!way) return false;
    inner.light *= way->transmittance;
    inner.passes = way->probability;
    return true;
}

}  // namespace dapple
