// A vertex of a light walk joined to a sensor: to the lens, or to a point of a meter's receptor.
#pragma once

#include "transport/walk.h"

namespace dapple {

// A sensor as a vertex sees it.
struct SensorView {
    Point point{0};
    Direction to_sensor{0, 0, 1};
    float distance = 0;
    float response = 0;       // reading per cd/m² and sr
    float pdf_direction = 0;  // of sensor walks to come this way, times their number, per sr
    PartialWeights weights;   // of the light walk, as they count for this sensor
    float light_walks = 1;    // the fixture's, over those that this sensor sees
    float asks_sheets = 0;    // how often its walks ask for light on cloth, at the sensor itself
    float soft_weight = 1;    // how much more than once this join counts (E73)
    float caught = 0;         // cos_front / pdf_area where a light walk can fall on it by itself
};

// What the vertex, not a delta one, brings to the sensor (E49): the sensor's reading per unit of
// the group spectra, `scale` lumens per light walk. False where nothing.
bool join_to_sensor(const Stage& stage,
                    Walk& walk,
                    const Vertex& vertex,
                    float scale,
                    const SensorView& sensor,
                    Spectrum& reading);

}  // namespace dapple
