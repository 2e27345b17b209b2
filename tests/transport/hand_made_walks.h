// Walks along hand-made paths: the sums that the renderer's light walk and sensor walk would carry.
#pragma once

#include "transport/hand_made_path.h"
#include "transport/technique_weights.h"

namespace dapple::test {

// The renderer computes weights in floats.
inline float as_float(double x) {
    return static_cast<float>(x);
}

struct HandMadeWalk {
    PartialWeights weights;
    PathHistory history;
    // Of a sensor walk: the sum `join` at the vertex before; 0 if sheet sampling cannot sample that
    // vertex.
    double join_before = 0;
    // Of a light walk at its first vertex: the sum `join` times the density of sheet sampling.
    double sheet_join = 0;
};

// The probability with which vertex i asks for the light that a light walk brings over its edge.
double asked_over_edge(const HandMadePath& path, int i, bool seen_first);

// The light walk when it has arrived at a vertex, 1 … n + 1.
HandMadeWalk light_walk_at(const HandMadePath& path, int vertex);

// The sensor walk when it has arrived at a vertex, n … 0.
HandMadeWalk sensor_walk_at(const HandMadePath& path, int vertex);

SensorSums sums_of(const HandMadePath& path, const HandMadeWalk& sensor_walk);

}  // namespace dapple::test
