#include "transport/ask_lamp.h"

#include <cmath>

namespace dapple {

namespace {

// A lamp asked from a point. `take(answer)` sets wi and f, and returns false where the point takes
// nothing of the light.
template <class Take>
std::optional<LampAnswer> ask(const Stage& stage,
                              Walk& walk,
                              const Vertex& vertex,
                              size_t fixture,
                              const std::array<float, 2>& u,
                              const Take& take) {
    std::optional<LampAnswer> result(std::in_place);
    LampAnswer& answer = *result;
    LampLight& light = answer.light;
    const Point& from = vertex.at.position;
    if (!stage.emitters[fixture].sample_towards(from, u[0], u[1], light)) return std::nullopt;
    const Vec3 to_lamp = light.position - from;
    answer.distance2 = glm::dot(to_lamp, to_lamp);
    answer.wi_world = -light.direction;
    if (!take(answer)) return std::nullopt;
    const ConnectionTarget lamp{light.position, answer.wi_world, std::sqrt(answer.distance2)};
    const std::optional<Connection> way = connect(stage, walk, vertex, lamp);
    if (!way) return std::nullopt;
    answer.way = *way;
    return result;
}

}  // namespace

std::optional<LampAnswer> ask_lamp(const Stage& stage,
                                   Walk& walk,
                                   const Vertex& vertex,
                                   size_t fixture,
                                   const std::array<float, 2>& u) {
    return ask(stage, walk, vertex, fixture, u, [&](LampAnswer& answer) {
        answer.wi = vertex.frame().to_local(answer.wi_world);
        if (!sides_agree(vertex, answer.wi_world, answer.wi.z)) return false;
        answer.f = eval(vertex.bsdf, vertex.wo(), answer.wi, Carrying::kRadiance);
        return !answer.f.is_black();
    });
}

std::optional<LampAnswer> ask_lamp_at_receptor(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u) {
    return ask(stage, walk, vertex, fixture, u, [&](LampAnswer& answer) {
        answer.wi = Direction(0, 0, glm::dot(vertex.at.geometric, answer.wi_world));
        answer.f = Spectrum(1.0F);
        return answer.wi.z > 0;
    });
}

}  // namespace dapple
