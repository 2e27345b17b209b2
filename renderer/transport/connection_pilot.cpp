#include "transport/connection_pilot.h"

#include <cmath>

#include "transport/inner_connection.h"
#include "transport/pilot_walk.h"

namespace dapple {

namespace {

// Two points that are very near each other do not stand for their cells.
constexpr float kNearest_m2 = 0.01F;
constexpr float kBlockedShare = 0.1F;

}  // namespace

std::optional<PilotReceiver> find_receiver(const Stage& stage, int x, int y, uint32_t number) {
    RandomStream random(stage.seed, stage.pass, number, Purpose::kConnectionPilot);
    PilotReceiver receiver{.walk = start_pilot_walk(stage, x, y, number, random), .vertex = {}};
    Walk& walk = receiver.walk;
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

double connected_light(const Stage& stage, const PilotReceiver& z, const StoredVertex& y) {
    Walk walk = z.walk;
    std::optional<InnerConnection> inner = prepare_connection(stage, walk, z.vertex, y);
    if (!inner) return 0;
    const float clear = inner->light.mean();
    const bool blocked = !pass_connection(stage, walk, z.vertex, *inner);
    const float light = blocked ? kBlockedShare * clear : inner->light.mean();
    const float distance2 = square(inner->target.distance);
    return static_cast<double>(light * distance2 / std::max(distance2, kNearest_m2));
}

}  // namespace dapple
