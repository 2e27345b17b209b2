#include "transport/direct_light.h"

#include <cmath>

namespace dapple {

namespace {

// Samples a point of the lamp and connects it with the vertex. `receive(direct)` sets wi and f, and
// returns false if the vertex receives no light from the sampled point.
template <class Receive>
std::optional<DirectLight> sample_lamp_point(const Stage& stage,
                                             Walk& walk,
                                             const Vertex& vertex,
                                             size_t fixture,
                                             const std::array<float, 2>& u,
                                             const Receive& receive) {
    std::optional<DirectLight> result(std::in_place);
    DirectLight& direct = *result;
    LampLight& light = direct.light;
    const Point& from = vertex.at.position;
    if (!stage.emitters[fixture].sample_towards(from, u[0], u[1], light)) return std::nullopt;
    const Vec3 to_lamp = light.position - from;
    direct.distance2 = glm::dot(to_lamp, to_lamp);
    direct.wi_world = -light.direction;
    if (!receive(direct)) return std::nullopt;
    const ConnectionTarget lamp{light.position, direct.wi_world, std::sqrt(direct.distance2)};
    const std::optional<Connection> way = connect(stage, walk, vertex, lamp);
    if (!way) return std::nullopt;
    direct.way = *way;
    return result;
}

}  // namespace

std::optional<DirectLight> sample_direct_light(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u) {
    return sample_lamp_point(stage, walk, vertex, fixture, u, [&](DirectLight& direct) {
        direct.wi = vertex.frame().to_local(direct.wi_world);
        if (!sides_agree(vertex, direct.wi_world, direct.wi.z)) return false;
        direct.f = eval(vertex.bsdf, vertex.wo(), direct.wi, Carrying::kRadiance);
        return !direct.f.is_black();
    });
}

std::optional<DirectLight> sample_direct_light_at_receptor(const Stage& stage,
                                                           Walk& walk,
                                                           const Vertex& vertex,
                                                           size_t fixture,
                                                           const std::array<float, 2>& u) {
    return sample_lamp_point(stage, walk, vertex, fixture, u, [&](DirectLight& direct) {
        direct.wi = Direction(0, 0, glm::dot(vertex.at.geometric, direct.wi_world));
        direct.f = Spectrum(1.0F);
        return direct.wi.z > 0;
    });
}

}  // namespace dapple
