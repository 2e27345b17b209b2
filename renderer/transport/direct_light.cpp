#include "transport/direct_light.h"

#include <cmath>

namespace dapple {

namespace {

// The lamp whose light is sampled, from where, and the uniform numbers that choose the point on it.
struct LampSampling {
    const Vertex& vertex;
    size_t fixture;
    const std::array<float, 2>& u;
};

// Samples a point of the lamp and connects it with the vertex. `receive(direct)` sets wi and f, and
// returns false if the vertex receives no light from the sampled point. False if no light arrives.
template <class Receive>
bool find_direct_light(const Stage& stage,
                       Walk& walk,
                       const LampSampling& sampling,
                       const Receive& receive,
                       DirectLight& direct) {
    LampLight& light = direct.light;
    const Point& from = sampling.vertex.at.position;
    const Emitter& emitter = stage.emitters[sampling.fixture];
    if (!emitter.sample_towards(from, sampling.u[0], sampling.u[1], light)) return false;
    const Vec3 to_lamp = light.position - from;
    direct.distance2 = glm::dot(to_lamp, to_lamp);
    direct.wi_world = -light.direction;
    if (!receive(direct)) return false;
    const ConnectionTarget lamp{light.position, direct.wi_world, std::sqrt(direct.distance2)};
    const std::optional<Connection> way = connect(stage, walk, sampling.vertex, lamp);
    if (way) direct.way = *way;
    return way.has_value();
}

// The same, returned in place.
template <class Receive>
std::optional<DirectLight> direct_light(const Stage& stage,
                                        Walk& walk,
                                        const LampSampling& sampling,
                                        const Receive& receive) {
    std::optional<DirectLight> result(std::in_place);
    if (!find_direct_light(stage, walk, sampling, receive, *result)) result.reset();
    return result;
}

}  // namespace

std::optional<DirectLight> sample_direct_light(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u) {
    return direct_light(stage, walk, {vertex, fixture, u}, [&](DirectLight& direct) {
        direct.wi = vertex.frame().to_local(direct.wi_world);
        if (!sides_agree(vertex, direct.wi_world, direct.wi.z)) return false;
        direct.f = eval(vertex.bsdf, vertex.wo(), direct.wi, Carrying::kRadiance);
        return !direct.f.is_black();
    });
}

std::optional<DirectLight> sample_direct_light_in_haze(const Stage& stage,
                                                       Walk& walk,
                                                       const Vertex& vertex,
                                                       size_t fixture,
                                                       const std::array<float, 2>& u) {
    return direct_light(stage, walk, {vertex, fixture, u}, [](DirectLight& direct) {
        direct.f = Spectrum(1.0F);
        return true;
    });
}

std::optional<DirectLight> sample_direct_light_at_receptor(const Stage& stage,
                                                           Walk& walk,
                                                           const Vertex& vertex,
                                                           size_t fixture,
                                                           const std::array<float, 2>& u) {
    return direct_light(stage, walk, {vertex, fixture, u}, [&](DirectLight& direct) {
        direct.wi = Direction(0, 0, glm::dot(vertex.at.geometric, direct.wi_world));
        direct.f = Spectrum(1.0F);
        return direct.wi.z > 0;
    });
}

}  // namespace dapple
