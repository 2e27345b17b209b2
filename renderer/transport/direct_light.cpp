#include "transport/direct_light.h"

#include <cmath>

namespace dapple {

namespace {

// Samples the point on the lamp. False if none of the lamp's light can reach the vertex.
bool draw_point(const Stage& stage,
                const Vertex& vertex,
                size_t fixture,
                const std::array<float, 2>& u,
                DirectLight& direct) {
    const Point& from = vertex.at.position;
    if (!stage.emitters[fixture].sample_towards(from, u[0], u[1], direct.light)) return false;
    const Vec3 to_lamp = direct.light.position - from;
    direct.distance2 = glm::dot(to_lamp, to_lamp);
    direct.wi_world = -direct.light.direction;
    return true;
}

bool connect_with_lamp(const Stage& stage, Walk& walk, const Vertex& vertex, DirectLight& direct) {
    const ConnectionTarget lamp{
        direct.light.position, direct.wi_world, std::sqrt(direct.distance2)};
    const std::optional<Connection> way = connect(stage, walk, vertex, lamp);
    if (way) direct.way = *way;
    return way.has_value();
}

}  // namespace

std::optional<DirectLight> sample_direct_light(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u) {
    std::optional<DirectLight> result(std::in_place);
    DirectLight& direct = *result;
    if (!draw_point(stage, vertex, fixture, u, direct)) return std::nullopt;
    direct.wi = vertex.frame().to_local(direct.wi_world);
    if (!sides_agree(vertex, direct.wi_world, direct.wi.z)) return std::nullopt;
    direct.f = eval(vertex.bsdf, vertex.wo(), direct.wi, Carrying::kRadiance);
    if (direct.f.is_black()) return std::nullopt;
    if (!connect_with_lamp(stage, walk, vertex, direct)) return std::nullopt;
    return result;
}

std::optional<DirectLight> sample_direct_light_at_receptor(const Stage& stage,
                                                           Walk& walk,
                                                           const Vertex& vertex,
                                                           size_t fixture,
                                                           const std::array<float, 2>& u) {
    std::optional<DirectLight> result(std::in_place);
    DirectLight& direct = *result;
    if (!draw_point(stage, vertex, fixture, u, direct)) return std::nullopt;
    direct.wi = Direction(0, 0, glm::dot(vertex.at.geometric, direct.wi_world));
    if (!(direct.wi.z > 0)) return std::nullopt;
    direct.f = Spectrum(1.0F);
    if (!connect_with_lamp(stage, walk, vertex, direct)) return std::nullopt;
    return result;
}

}  // namespace dapple
