// The connection of a camera walk's first rough vertex z with a stored vertex y of a light walk.
#pragma once

#include <optional>

#include "transport/connect.h"
#include "transport/stored_vertices.h"

namespace dapple {

// The light that comes from y and leaves z along the camera walk, and the densities of the path.
struct InnerConnection {
    ConnectionTarget target;  // y as z sees it
    Spectrum light{0.0F};     // radiance per stored vertex, without the walk's throughput
    float passes = 1;         // probability with which a walk passes straight over the new edge
    float z_to_y = 0;         // density of the camera walk's step from z to y, per m²
    float y_to_z = 0;         // density of the light walk's step from y to z, per m²
    float y_to_lamp = 0;      // density of a camera walk's step from y towards the lamp, per sr
};

// The connection if nothing is in the way. Nothing if one of the vertices scatters no light over
// it. `walk` is the camera walk at z.
std::optional<InnerConnection> prepare_connection(const Stage& stage,
                                                  const Walk& walk,
                                                  const Vertex& z,
                                                  const StoredVertex& y);

// Traces the edge from z to y and multiplies the light by what passes. False if the way is blocked.
bool pass_connection(const Stage& stage, Walk& walk, const Vertex& z, InnerConnection& inner);

}  // namespace dapple
