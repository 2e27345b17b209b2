// Joins a vertex of a light walk to a sensor: to the lens or to a point of a meter's receptor.
#pragma once

#include <optional>

#include "transport/connect.h"

namespace dapple {

// The sensor as seen from the vertex.
struct SensorView {
    ConnectionTarget target;  // the point of the sensor
    float response = 0;       // reading per cd/m² and sr
    // Density of a sensor walk in this direction, times the number of sensor walks, per sr.
    float pdf_direction = 0;
    PartialWeights weights;  // of the light walk; for a meter without merging
    float light_walks_per_joined =
        1;  // the fixture's light walks over its walks joined to this sensor
    // On the first edge: number of sheet samples taken at the sensor itself, times the density with
    // which they sample the light walk's first vertex.
    float by_sheet = 0;
    float soft_weight = 1;  // how many times this join counts (E91)
    float by_falling = 0;   // cosine / pdf_area, m²; 0: no light walk can fall on the sensor
};

// The vertex of a light walk that is joined. It is on a rough surface.
struct JoinedVertex {
    const Vertex& vertex;
    const Spectrum& throughput;  // of the light walk at the vertex
    float lumens = 0;            // per light walk
};

// The directions of a join, in the frame that a walk from the sensor would use at the vertex.
struct JoinDirections {
    Direction wo{0};  // back along the light walk
    Direction wi{0};  // to the sensor
};

// Nothing if the light would leak through the surface.
std::optional<JoinDirections> join_directions(const Vertex& vertex, const Direction& to_sensor);

// The sensor's reading per unit of the group spectra (E90). Nothing if no light reaches the sensor.
std::optional<Spectrum> join_to_sensor(const Stage& stage,
                                       Walk& walk,
                                       const JoinedVertex& joined,
                                       const SensorView& sensor);

}  // namespace dapple
