// The weight of one technique among all techniques that can make the same path (balance heuristic,
// Veach 1995).
//
// Each function returns the *balance* of a technique: the sum of the densities of all techniques,
// its own included, over its own density. The weight is 1 / balance. Over all techniques the
// weights of one path sum to 1; tests/transport/weights_test.cpp checks that on hand-made paths.
//
// Most fields are densities with which another technique makes the same path, relative to the
// function's own technique. `pdf_to_lamp` and `pdf_to_sensor` are densities of a walk's step from
// the vertex towards the lamp or the sensor, per sr.
#pragma once

#include "transport/weights.h"

namespace dapple {

// A sensor walk at its present vertex.
struct SensorSums {
    PartialWeights weights;  // of a meter walk: without merging
    // How many times a light walk counts if it was scattered before it is joined to the lens (E77).
    float soft_weight = 1;
    bool rough_after_first = false;  // PathHistory::rough_after_first()

    // Densities of all techniques whose light walk is scattered at the present vertex or later.
    float scattered() const { return soft_weight * weights.reversed + weights.merged; }
};

// A sensor walk met a lamp (E73).
struct MetLamp {
    // Density with which the vertex before samples this point of the lamp, per m².
    float pdf_lamp_point = 0;
    float emitted = 0;  // density of the light walk's first ray, N pA pω
};
inline float balance_of_met_lamp(const SensorSums& sensor, const MetLamp& lamp) {
    // Where nothing rough happened after the first event, the light walk that is joined to the lens
    // was not scattered, so it counts once.
    const float by_light_walk = sensor.rough_after_first
                                    ? sensor.scattered()
                                    : sensor.weights.reversed + sensor.weights.merged;
    return 1.0F + lamp.pdf_lamp_point * sensor.weights.join + lamp.emitted * by_light_walk;
}

// A lamp's point was sampled from a vertex of a sensor walk (E74). Densities are relative to the
// density of the lamp's point, pt.
struct SampledLamp {
    float met = 0;            // the sensor walk itself continues to the lamp
    float walked = 0;         // the light walk reaches the vertex, N pA pω cosθ/d²
    float pdf_to_sensor = 0;  // of the light walk
    float passes = 1;         // probability with which a walk passes straight over the new edge
    float by_sheet = 0;       // sheet sampling samples the vertex, relative to the sensor walk
};
inline float balance_of_sampled_lamp(const SensorSums& sensor, const SampledLamp& lamp) {
    const PartialWeights& w = sensor.weights;
    const float others =
        lamp.by_sheet +
        lamp.passes * (lamp.met + lamp.walked * (w.per_join * w.join +
                                                 sensor.scattered() * lamp.pdf_to_sensor));
    return 1.0F + others;
}

// A point on lit cloth was sampled for a vertex of a sensor walk, and a lamp's point was sampled
// from there (E75). Densities are relative to the densities of these two points, ps pt.
struct SampledSheet {
    float met = 0;            // the sensor walk itself reaches the cloth; without `pdf_to_lamp`
    float pdf_to_lamp = 0;    // of the sensor walk, towards the cloth
    float walked = 0;         // the light walk reaches the vertex by way of the cloth
    float pdf_to_sensor = 0;  // of the light walk
};
inline float balance_of_sampled_sheet(const SensorSums& sensor, const SampledSheet& sheet) {
    const PartialWeights& w = sensor.weights;
    const float others =
        sheet.met * sheet.pdf_to_lamp + sheet.walked * (sensor.soft_weight * w.per_join * w.join +
                                                        sensor.scattered() * sheet.pdf_to_sensor);
    return 1.0F + others;
}

// A vertex of a light walk was joined to a sensor (E76).
struct SensorJoin {
    PartialWeights weights;   // of the light walk; for a meter without merging
    bool is_shiny = false;    // the vertex
    float pdf_to_lamp = 0;    // of a sensor walk
    float pdf_to_sensor = 0;  // of the light walk
    float walked = 0;         // a sensor walk reaches the vertex, times the number of sensor walks
    float light_walks = 1;    // the fixture's light walks over its walks joined to this sensor
    float caught = 0;       // the light walk itself falls on the sensor; without pdf_to_sensor/d²
    float distance2 = 1;    // d², m²
    float sheet_drawn = 0;  // sheet samples of the sensor itself × ps; only on the first edge
    float passes = 1;       // probability with which a walk passes straight over the new edge
    float soft_weight = 1;  // how many times this join counts (E77)
};
inline float balance_of_sensor_join(const SensorJoin& join) {
    const PartialWeights& w = join.weights;
    const float joinable = w.per_join * w.join * join.light_walks;
    float others = join.walked * (joinable + (w.reversed + (join.is_shiny ? w.shiny : 0.0F)) *
                                                 join.light_walks * join.pdf_to_lamp);
    others += join.pdf_to_sensor * join.caught / join.distance2;
    others /= join.soft_weight;
    // Sheet sampling also connects over the new edge, so `passes` is not part of its density.
    return 1.0F + join.passes * others + joinable * join.sheet_drawn;
}

// A photon was merged with a camera walk (E79).
struct MergedPhoton {
    float joinable = 0;       // per_join · join of the light walk
    float reversed = 0;       // sum of the light walk
    float shiny = 0;          // sum of the light walk
    float pdf_to_lamp = 0;    // of the camera walk
    float pdf_to_sensor = 0;  // of the light walk
    float area = 0;           // merging area times the share of photons that is kept, m²
};
inline float balance_of_merged_photon(const SensorSums& camera, const MergedPhoton& photon) {
    const float others = (photon.joinable + (photon.reversed + photon.shiny) * photon.pdf_to_lamp +
                          (camera.scattered() + camera.weights.waiting) * photon.pdf_to_sensor) /
                         photon.area;
    return 1.0F + others;
}

// A lamp's point was sampled from a point of a meter's receptor (E81).
struct LampAtReceptor {
    float met = 0;     // the meter walk itself continues to the lamp
    float fallen = 0;  // the light walk falls on the receptor
    float passes = 1;  // probability with which a walk passes straight over the new edge
};
inline float balance_of_lamp_at_receptor(const LampAtReceptor& lamp) {
    return 1.0F + lamp.passes * (lamp.met + lamp.fallen);
}

// A point on lit cloth was sampled for a point of a meter's receptor, and a lamp's point was
// sampled from there (E75).
struct SheetAtReceptor {
    float met = 0;          // the meter walk itself reaches the cloth; without `pdf_to_lamp`
    float pdf_to_lamp = 0;  // of the meter walk, towards the cloth
    float joined = 0;       // a light walk reaches the cloth and is joined to the receptor
    float fallen = 0;       // a light walk reaches the cloth and falls on the receptor
    float light_walks = 0;  // light walks for each meter walk
};
inline float balance_of_sheet_at_receptor(const SheetAtReceptor& sheet) {
    const float others =
        sheet.met * sheet.pdf_to_lamp + sheet.light_walks * (sheet.joined + sheet.fallen);
    return 1.0F + others;
}

// A light walk fell on a meter's receptor (E82).
struct FallenLight {
    PartialWeights weights;  // of the light walk at the receptor, without merging
    bool first_edge = false;
    // On the first edge: density with which the receptor samples this point of the lamp, per m².
    float pdf_lamp_point = 0;
    float pdf_area = 0;  // of the receptor's points, per m²
    float pdf_walk = 0;  // of the meter walk back along the edge, per sr
    float meter_walks = 0;
    float light_walks = 1;  // the fixture's light walks over its walks that count at the receptor
};
inline float balance_of_fallen_light(const FallenLight& fallen) {
    const PartialWeights& w = fallen.weights;
    // The other techniques join the vertex before to a point of the receptor. On the first edge
    // that vertex is the lamp's point, which the meter walks sample.
    float joined = fallen.pdf_area * w.join;
    if (fallen.first_edge) {
        joined *= fallen.meter_walks * fallen.light_walks * fallen.pdf_lamp_point;
    } else {
        joined *= 1.0F + fallen.meter_walks * fallen.light_walks * w.per_join;
    }
    const float walked =
        fallen.meter_walks * fallen.pdf_area * fallen.pdf_walk * w.reversed * fallen.light_walks;
    return 1.0F + (joined + walked);
}

}  // namespace dapple
