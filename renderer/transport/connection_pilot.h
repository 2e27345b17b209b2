// Pilot walks that find how much light stored vertices bring to the first rough vertices of camera
// walks (connection_table.h).
#pragma once

#include <optional>

#include "transport/stored_vertices.h"
#include "transport/walk.h"

namespace dapple {

// A camera walk at its first rough vertex.
struct PilotReceiver {
    Walk walk;
    Vertex vertex;
};

// Nothing if pilot walk `number` through the pixel finds no rough vertex that can be connected.
std::optional<PilotReceiver> find_receiver(const Stage& stage, int x, int y, uint32_t number);

// The light that comes from y and leaves z along the camera walk; the mean over the wavelengths. A
// tenth of the light counts if something is in the way, because one point does not stand for its
// whole cell.
double connected_light(const Stage& stage, const PilotReceiver& z, const StoredVertex& y);

}  // namespace dapple
