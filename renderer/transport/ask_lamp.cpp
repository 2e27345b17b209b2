#include "transport/ask_lamp.h"

#include <cmath>

namespace dapple {

namespace {

// Draws the point on the lamp. False where none of the lamp's light can go to the vertex.
bool draw_point(const Stage& stage,
                const Vertex& vertex,
                size_t fixture,
                const std::array<float, 2>& u,
                LampAnswer& answer) {
    const Point& from = vertex.at.position;
    if (!stage.emitters[fixture].sample_towards(from, u[0], u[1], answer.light)) return false;
    const Vec3 to_lamp = answer.light.position - from;
    answer.distance2 = glm::dot(to_lamp, to_lamp);
    answer.wi_world = -answer.light.direction;
    return true;
}

bool connect_with_lamp(const Stage& stage, Walk& walk, const Vertex& vertex, LampAnswer& answer) {
    const ConnectionTarget lamp{
        answer.light.position, answer.wi_world, std::sqrt(answer.distance2)};
    const std::optional<Connection> way = connect(stage, walk, vertex, lamp);
    if (way) answer.way = *way;
    return way.has_value();
}

}  // namespace

std::optional<LampAnswer> ask_lamp(const Stage& stage,
                                   Walk& walk,
                                   const Vertex& vertex,
                                   size_t fixture,
                                   const std::array<float, 2>& u) {
    std::optional<LampAnswer> result(std::in_place);
    LampAnswer& answer = *result;
    if (!draw_point(stage, vertex, fixture, u, answer)) return std::nullopt;
    answer.wi = vertex.frame().to_local(answer.wi_world);
    if (!sides_agree(vertex, answer.wi_world, answer.wi.z)) return std::nullopt;
    answer.f = eval(vertex.bsdf, vertex.wo(), answer.wi, Carrying::kRadiance);
    if (answer.f.is_black()) return std::nullopt;
    if (!connect_with_lamp(stage, walk, vertex, answer)) return std::nullopt;
    return result;
}

std::optional<LampAnswer> ask_lamp_at_receptor(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u) {
    std::optional<LampAnswer> result(std::in_place);
    LampAnswer& answer = *result;
    if (!draw_point(stage, vertex, fixture, u, answer)) return std::nullopt;
    answer.wi = Direction(0, 0, glm::dot(vertex.at.geometric, answer.wi_world));
    if (!(answer.wi.z > 0)) return std::nullopt;
    answer.f = Spectrum(1.0F);
    if (!connect_with_lamp(stage, walk, vertex, answer)) return std::nullopt;
    return result;
}

}  // namespace dapple
