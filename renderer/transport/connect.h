// A straight edge from a vertex of a walk to a point of a lamp, of a cloth or of a sensor.
#pragma once

#include <optional>

#include "transport/walk.h"

namespace dapple {

// The point that a vertex is connected to, as seen from the vertex.
struct ConnectionTarget {
    Point point{0};
    Direction direction{0, 0, 1};  // from the vertex to the point
    float distance = 0;            // m
};

struct Connection {
    Spectrum transmittance{1.0F};  // of media and see-through surfaces on the way
    float probability = 1;         // of a walk passing straight over the same edge
};

// Nothing if the way is blocked. Counts the shadow ray in `walk`.
std::optional<Connection> connect(const Stage& stage,
                                  Walk& walk,
                                  const Vertex& vertex,
                                  const ConnectionTarget& target);

}  // namespace dapple
