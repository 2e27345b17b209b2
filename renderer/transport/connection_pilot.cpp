#include "transport/connection_pilot.h"

#include <cmath>

#include "transport/inner_connection.h"

namespace dapple {

namespace {

// Two points that are very near each other do not stand for their cells.
constexpr float kNearest_m2 = 0.01F;

}  // namespace

std::optional<PilotReceiver> find_receiver(const Stage& stage, int x, int y, uint32_t number) {
    RandomStream random(stage.seed, stage.pass, number, Purpose::kConnectionPilot);
    const float u = random.next();
    const float v = random.next();
    const Vec2 raster(static_cast<float>(x) + u, static_cast<float>(y) + v);
    PilotReceiver receiver;
    Walk& walk = receiver.walk;
    walk.ray = stage.lens.sample_ray(raster, 0.5F, 0.5F).ray;
    walk.media = stage.start.lens;
    walk.light.hero = static_cast<int>(number % kSpectrumSize);
    Vertex& vertex = receiver.vertex;
    while (find_next_vertex(stage, walk, vertex) && !vertex.is_lamp()) {
        if (may_merge(stage, vertex)) return receiver;
        const Vec3 event = next_three(random);
        const ScatterResult result =
            scatter(stage, walk, vertex, Carrying::kRadiance, event, random);
        if (result == ScatterResult::kEnded || !walk.history.only_smooth()) break;
    }
    return std::nullopt;
}

float connected_light(const Stage& stage, const PilotReceiver& z, const StoredVertex& y) {
    Walk walk = z.walk;
    const std::optional<InnerConnection> inner = connect_to_stored(stage, walk, z.vertex, y);
    if (!inner) return 0;
    const Vec3 way = y.at.position - z.vertex.at.position;
    const float distance2 = glm::dot(way, way);
    return inner->light.mean() * distance2 / std::max(distance2, kNearest_m2);
}

float unshadowed_light(const PilotReceiver& z, const StoredVertex& y) {
    const Vec3 way = y.at.position - z.vertex.at.position;
    const float distance2 = std::max(glm::dot(way, way), kNearest_m2);
    const float cosines = std::abs(glm::dot(way, y.at.geometric) *
                                   glm::dot(way, z.vertex.at.geometric)) /
                          distance2;
    return y.flux.unpacked().mean() * std::max(0.05F, cosines) / distance2;
}

}  // namespace dapple
