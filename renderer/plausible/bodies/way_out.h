// How deep one body is in another, and which way out is the shortest.
//
// A body that is moved along one way is tried at growing distances until it is clear, and then at
// distances in between. The depth is the shortest such move. What is found is the shortest of the
// ways that are tried, not of all ways, so that it can be longer than the true depth: by up to 8 %
// for a vertical surface, whose ways are 22.5° from the nearest one at most.
#pragma once

#include <optional>
#include <vector>

#include "plausible/bodies/crossings.h"
#include "scene/scene.h"

namespace dapple {

struct WayOut {
    Direction way{0, 1, 0};
    float distance = 0;  // m
};

// Level ways: along the camera's directions, along the room's axes and between them; and up.
std::vector<Direction> ways_out(const Camera& camera, bool also_down);

struct WayOutSearch {
    const World& world;
    const BodyCage& cage;
    const Counts& counts;        // the surfaces that the body must be clear of
    std::optional<Bounds> room;  // that the body must stay in
    std::vector<Direction> ways;
    std::vector<Point> places;  // the new place must be in sight of one of these, past the room
};

// The shortest move that leaves the body clear and outside of other bodies; none within 2 m.
// A distance of at most `touching` is not measured: `touching` is returned.
std::optional<WayOut> find_way_out(const WayOutSearch& search, float touching);

// The least distance along a way out that is clear, to a tenth of a millimetre.
float exact_distance(const WayOutSearch& search, const WayOut& out);

}  // namespace dapple
