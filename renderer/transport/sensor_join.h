// A vertex of a light walk joined to a sensor: to the lens, or to a point of a meter's receptor.
#pragma once

#include <optional>

#include "transport/connect.h"

namespace dapple {

// A sensor as a vertex sees it.
struct SensorView {
    ConnectionTarget target;  // the point of the sensor
    float response = 0;       // reading per cd/m² and sr
    // Density of sensor walks in this direction, times their number, per sr.
    float pdf_direction = 0;
    PartialWeights weights;  // of the light walk; for a meter without merging
    float light_walks = 1;   // the fixture's light walks over those that this sensor sees
    // Sheet samples that the sensor's walks take at the sensor itself, times the density with which
    // they draw the light walk's first vertex.
    float sheet_drawn = 0;
    float soft_weight = 1;  // how many times this join counts (E73)
    float caught = 0;       // cosine / pdf_area, m², where a light walk can fall on it by itself
};

// A vertex of a light walk that is joined, which is not a smooth one.
struct JoinedVertex {
    const Vertex& vertex;
    const Spectrum& throughput;  // of the light walk there
    float lumens = 0;            // per light walk
};

// The sensor's reading per unit of the group spectra (E49). Nothing where no light gets there.
std::optional<Spectrum> join_to_sensor(const Stage& stage,
                                       Walk& walk,
                                       const JoinedVertex& joined,
                                       const SensorView& sensor);

}  // namespace dapple
