// A walk from a sensor, that is from the lens or from a meter's receptor. At every vertex it asks
// each fixture for its direct light; a lamp that it meets adds what it sends.
#pragma once

#include <span>

#include "transport/sensor_numbers.h"
#include "transport/technique_weights.h"
#include "transport/walk.h"

namespace dapple {

// What a sensor walk starts from. At a receptor, lamps have been asked for their light already.
enum class SensorEnd { kLens, kReceptor, kPointReceptor };

// The last point on cloth that a sensor walk left, for sheet sampling (E71).
struct LeftSheet {
    int sheet = -1;  // where the present edge began; -1: not on cloth
    Vec2 barycentric{0};
    float join = 0;  // the sum `join` there
};

struct SensorWalk {
    SensorEnd end = SensorEnd::kLens;
    Walk walk;
    LeftSheet left_sheet;
    // Of a camera walk: how many times light walks count that are joined to the lens at the walk's
    // first surface and were scattered on their way there (soft_splat.h).
    float soft_weight = 1;

    bool from_lens() const { return end == SensorEnd::kLens; }
    // The sums at the present vertex.
    SensorSums sums() const {
        return {.weights = from_lens() ? walk.weights : walk.weights.without_merging(),
                .soft_weight = soft_weight,
                .rough_after_first = walk.history.rough_after_first()};
    }
};

// Follows a walk that has its first ray. Adds to `by_fixture` (one per fixture) what it collects at
// the pass's wavelengths, per unit of the group spectra.
void follow_sensor_walk(const Stage& stage,
                        SensorWalk& sensor,
                        SensorNumbers& numbers,
                        std::span<Spectrum> by_fixture);

}  // namespace dapple
