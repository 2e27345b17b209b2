// Mains cables: each mains fixture's cable goes straight down to the floor, or down its stand, and
// from there straight to the nearest socket.
#pragma once

#include <string>
#include <vector>

#include "geometry/world.h"
#include "scene/scene.h"

namespace dapple {

struct CableRun {
    int fixture = 0;    // index into Scene::fixtures
    Point from{0};      // on the floor below the fixture or at the foot of its stand, m
    Point to{0};        // the socket
    double length = 0;  // m, the way down included
};

// Nothing for battery fixtures and windows, and none at all if the set names no sockets.
std::vector<CableRun> find_cables(const Scene& scene, const World& world);

}  // namespace dapple
