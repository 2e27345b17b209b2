#include "transport/haze/cross_haze.h"

#include <algorithm>
#include <cmath>

#include "math/warps.h"

namespace dapple {

namespace {

// The probability of a second walk, and that a later leg's light is looked for, per share of the
// light that the leg scatters; and the least of the latter.
constexpr float kBranchPerShare = 4;
constexpr float kMostGlowBranches = 0.5F;  // where neighbouring pixels share the light
constexpr float kAskPerShare = 2;
constexpr float kLeastAsk = 0.1F;

// Scatters the walk where the leg has lost the share `u` of what it loses in all. False if the walk
// is over.
bool scatter_in_haze(const Stage& stage,
                     SensorWalk& sensor,
                     const HazeLeg& leg,
                     const Vec3& u,
                     RandomStream& random,
                     std::span<Spectrum> by_fixture) {
    const float all = -std::expm1(-leg.way.depth(leg.way.last()));
    const float t = leg.way.at_depth(-std::log1p(-u.x * all));
    Walk& walk = sensor.walk;
    walk.last_position = leg.origin + t * leg.direction;
    walk.light.forget_dropped();
    HazePoint{stage, sensor, leg.direction, random, by_fixture}.add_light();
    const float g = stage.haze->forward();
    const float cosine = sample_phase(g, u.y);
    const float sine = std::sqrt(std::max(0.0F, 1.0F - cosine * cosine));
    const Direction onwards =
        Frame(leg.direction).to_world(direction_from_angles(cosine, sine, 2 * kPiF * u.z));
    walk.ray = Ray{walk.last_position, onwards, 0.0F, kInfinity};
    walk.weights = {.join = 1.0F / eval_phase(g, cosine), .per_join = 0};
    walk.history.record_haze();
    walk.edge_length = 0;
    ++walk.edge;
    sensor.last_sheet = {};
    sensor.before = {};
    sensor.before.asked.lamps = stage.haze_aids->lamps.data();
    sensor.before.asked.sheets = stage.haze_aids->sheets.data();
    return walk.edge <= stage.max_bounces + 1 &&
           survives_roulette(walk, Carrying::kRadiance, random);
}

// The second walk of a leg, begun with a probability of at most `most`.
void begin_branch(const Stage& stage,
                  SensorWalk& sensor,
                  const HazeLeg& leg,
                  SensorNumbers& numbers,
                  float most,
                  HazeBranch& branch) {
    const float share = -std::expm1(-leg.way.depth(leg.way.last()));
    const float probability = std::min(most, kBranchPerShare * share);
    const std::array<float, 4> u = numbers.haze_event(sensor.walk.edge);
    if (u[0] >= probability) return;
    branch.walk = sensor;
    Walk& walk = branch.walk->walk;
    walk.rays = walk.nonfinite = 0;
    walk.light = leg.light;
    walk.light.multiply(Spectrum(share / probability));
    if (scatter_in_haze(
            stage, *branch.walk, leg, Vec3(u[1], u[2], u[3]), numbers.random, branch.by_fixture)) {
        return;
    }
    sensor.walk.rays += walk.rays;
    branch.walk.reset();
}

}  // namespace

LegEnd cross_haze(const Stage& stage,
                  SensorWalk& sensor,
                  Vertex& vertex,
                  SensorNumbers& numbers,
                  const SensorLight& light,
                  HazeBranch& branch) {
    Walk& walk = sensor.walk;
    const bool in_air = walk.media.empty();
    HazeLeg leg;
    leg.origin = walk.ray.origin;
    leg.direction = walk.ray.direction;
    leg.light = walk.light;
    const float length_before = walk.edge_length;
    const LegEnd end = find_next_vertex(stage, walk, vertex) ? LegEnd::kSurface : LegEnd::kNothing;
    if (!in_air) return end;
    leg.way = stage.haze->way(leg.origin, leg.direction, walk.edge_length - length_before);
    if (!(leg.way.first() < leg.way.last())) return end;
    const float passes = leg.way.transmittance(leg.way.last());
    leg.seen = walk.history.only_smooth();
    const std::span<Spectrum> later = light.beyond_first();
    const bool is_first = light.keeps_glow_apart() && leg.seen && walk.edge == 1;
    if (!leg.seen) leg.chance = std::clamp(kAskPerShare * (1.0F - passes), kLeastAsk, 1.0F);
    if (leg.seen || numbers.random.next() < leg.chance) {
        add_lamps_in_haze(stage, sensor, leg, numbers, is_first ? light.near_glow : later);
        add_beams_in_haze(stage, sensor, leg, is_first ? light.by_fixture : later);
    }
    if (leg.seen) {
        branch.by_fixture = is_first ? light.far_glow : later;
        begin_branch(stage, sensor, leg, numbers, is_first ? kMostGlowBranches : 1.0F, branch);
        return end;
    }
    if (numbers.random.next() < passes) {
        if (end == LegEnd::kSurface) walk.light.multiply(Spectrum(1.0F / passes));
        return end;
    }
    walk.light = leg.light;
    const Vec3 u = next_three(numbers.random);
    return scatter_in_haze(stage, sensor, leg, u, numbers.random, later) ? LegEnd::kHaze
                                                                         : LegEnd::kNothing;
}

}  // namespace dapple
