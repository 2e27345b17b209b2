// The weight of one technique among all techniques that can make the same path (balance heuristic,
// Veach 1995).
//
// Each function returns the *balance* of a technique: the sum of the densities of all techniques,
// its own included, over its own density. The weight is 1 / balance. Over all techniques the
// weights of one path sum to 1; tests/transport/weights_test.cpp checks that on hand-made paths.
//
// Each struct is the input of the function that follows it. A field named `by_…` is the density
// with which another technique makes the same path, over the density of the function's own
// technique. `pdf_to_lamp` and `pdf_to_sensor` are densities of a walk's step from the vertex
// towards the lamp or the sensor, per sr.
//
// Symbols: N number of the fixture's light walks; pA density of a light walk's start point, per m²;
// pω density of its first direction, per sr; pt density with which a lamp's point is sampled, per
// m²; ps density with which a point on cloth is sampled, per m².
#pragma once

#include "transport/weights.h"

namespace dapple {

// A sensor walk at its present vertex.
struct SensorSums {
    PartialWeights weights;  // of the sensor walk; those of a meter walk do not count merging
    // A light walk that is joined to the lens after it was scattered counts this many times (E91).
    float soft_weight = 1;
    bool rough_after_first = false;  // PathHistory::rough_after_first()
    float stored_flux = 0;           // of the fixture's stored vertices, lm (E95); 0: not connected

    // Densities of all techniques whose light walk is scattered at the present vertex or later.
    // `focused`: whether some event of the light walk up to then is a focusing one.
    float scattered(bool focused) const {
        return soft_weight * weights.reversed + weights.merged +
               (focused ? weights.waiting : 0.0F) + stored_flux * weights.inner;
    }
    // The light walk reaches the present vertex, and there it is connected to the vertex before.
    float connected() const { return stored_flux * weights.per_inner * weights.join; }
};

// A sensor walk met a lamp (E87).
struct MetLamp {
    // Density with which this point of the lamp is sampled from the vertex before, per m²; times
    // the probability that the vertex asks the lamp.
    float pdf_lamp_point = 0;
    float emitted = 0;  // density of the light walk's first ray, N pA pω
};
inline float balance_of_met_lamp(const SensorSums& sensor, const MetLamp& lamp) {
    // If the sensor walk had no rough event after its first one, the light walk of the same path is
    // joined to the lens at its own first rough vertex. It was not scattered before, so it counts
    // once.
    const float by_light_walk = sensor.rough_after_first
                                    ? sensor.scattered(false)
                                    : sensor.weights.reversed + sensor.weights.merged;
    return 1.0F + lamp.pdf_lamp_point * sensor.weights.join + lamp.emitted * by_light_walk;
}

// A lamp's point was sampled from a vertex of a sensor walk (E88). Densities are over pt.
struct SampledLamp {
    float by_sensor_walk = 0;  // the sensor walk itself continues to the lamp
    float by_light_walk = 0;   // the light walk reaches the vertex, N pA pω cosθ/d²
    float pdf_to_sensor = 0;   // of the light walk
    float passes = 1;          // probability with which a walk passes straight over the new edge
    float by_sheet = 0;        // sheet sampling samples the vertex, over the sensor walk's density
    float asked = 1;           // probability with which the vertex asks the lamp (E94)
    bool focuses = false;      // the event at the vertex is a focusing one
};
inline float balance_of_sampled_lamp(const SensorSums& sensor, const SampledLamp& lamp) {
    const PartialWeights& w = sensor.weights;
    // A light walk that is joined to the sensor at this vertex was not scattered before, so it
    // counts once.
    const float others =
        lamp.by_sheet +
        lamp.passes * (lamp.by_sensor_walk +
                       lamp.by_light_walk * (w.per_join * w.join + sensor.connected() +
                                             sensor.scattered(lamp.focuses) * lamp.pdf_to_sensor));
    return 1.0F + others / lamp.asked;
}

// A point on lit cloth was sampled for a vertex of a sensor walk, and a lamp's point was sampled
// from there (E89). Densities are over ps pt.
struct SampledSheet {
    float by_sensor_walk = 0;  // the sensor walk itself reaches the cloth, over pdf_to_cloth
    float pdf_to_cloth = 0;    // of the sensor walk's step from the vertex to the cloth, per sr
    float by_light_walk = 0;   // the light walk reaches the vertex by way of the cloth
    float pdf_to_sensor = 0;   // of the light walk
    float by_connection = 0;   // the light walk reaches the cloth and is connected to the vertex
    float asked = 1;           // probability with which the vertex asks the cloth (E94)
    bool focuses = false;      // the event at the vertex is a focusing one
};
inline float balance_of_sampled_sheet(const SensorSums& sensor, const SampledSheet& sheet) {
    const PartialWeights& w = sensor.weights;
    // A light walk that is joined to the sensor at this vertex was scattered by the cloth, so it
    // counts soft_weight times.
    const float others =
        sheet.by_sensor_walk * sheet.pdf_to_cloth +
        sheet.by_light_walk * (sensor.soft_weight * w.per_join * w.join + sensor.connected() +
                               sensor.scattered(sheet.focuses) * sheet.pdf_to_sensor) +
        sheet.by_connection;
    return 1.0F + others / sheet.asked;
}

// A vertex of a light walk was joined to a sensor (E90).
struct SensorJoin {
    PartialWeights weights;  // of the light walk; for a meter they do not count merging
    bool vertex_is_shiny = false;
    float pdf_to_lamp = 0;             // of a sensor walk
    float pdf_to_sensor = 0;           // of the light walk
    float by_sensor_walk = 0;          // all sensor walks together reach the vertex
    float light_walks_per_joined = 1;  // the fixture's, over those that are joined to this sensor
    float by_falling = 0;   // the light walk itself falls on the sensor, over pdf_to_sensor/d²
    float distance2 = 1;    // d², m²
    float by_sheet = 0;     // sheet samples of the sensor itself × ps, over `join`; on first edges
    float passes = 1;       // probability with which a walk passes straight over the new edge
    float soft_weight = 1;  // how many times this join counts (E91)
};
inline float balance_of_sensor_join(const SensorJoin& join) {
    const PartialWeights& w = join.weights;
    const float connected = w.join * join.light_walks_per_joined;
    const float joins = w.per_join * connected;
    float others =
        join.by_sensor_walk * (joins + (w.reversed + (join.vertex_is_shiny ? w.shiny : 0.0F)) *
                                           join.light_walks_per_joined * join.pdf_to_lamp);
    others += join.pdf_to_sensor * join.by_falling / join.distance2;
    others /= join.soft_weight;
    // Sheet sampling also connects over the new edge, so `passes` is not part of its density. Only
    // meters have sheet samples of their own, and their soft_weight is 1.
    return 1.0F + join.passes * others + connected * join.by_sheet;
}

// A photon was merged with a camera walk (E93).
struct MergedPhoton {
    // The vertex, if it is the camera walk's first rough one, is connected to the light walk's
    // vertex before: κ · join of the light walk's sums.
    float connected = 0;
    float reversed = 0;       // of the light walk's sums
    float shiny = 0;          // of the light walk's sums if the vertex is shiny, else 0
    float pdf_to_lamp = 0;    // of the camera walk
    float pdf_to_sensor = 0;  // of the light walk
    float area = 0;           // merging area × the share of photons that is kept, m²
};
inline float balance_of_merged_photon(const SensorSums& camera, const MergedPhoton& photon) {
    const float others = (photon.connected + (photon.reversed + photon.shiny) * photon.pdf_to_lamp +
                          camera.connected() + camera.scattered(true) * photon.pdf_to_sensor) /
                         photon.area;
    return 1.0F + others;
}

// A camera walk's first rough vertex z was connected to a stored vertex y of a light walk (E95).
// Only smooth events, or none, are between z and the lens. The fields are over the density of the
// connection without κ.
struct ConnectedVertex {
    float density = 0;       // κ
    float joinable = 0;      // per_join · join of the light walk's sums at y
    float reversed = 0;      // of the light walk's sums
    float shiny = 0;         // of the light walk's sums if y and z are shiny, else 0
    float by_sheet = 0;      // sheet sampling at z samples y
    float z_to_y = 0;        // of the camera walk's step, per m²
    float y_to_z = 0;        // of the light walk's step, per m²
    float y_to_lamp = 0;     // of the camera walk's step from y, per sr
    float merging_at_y = 0;  // merging area if photons are merged there, m²
    float merging_at_z = 0;
    float passes = 1;  // probability with which a walk passes straight over the new edge
};
inline float balance_of_connected_vertex(const SensorSums& camera, const ConnectedVertex& c) {
    const PartialWeights& w = camera.weights;
    // A light walk that is joined to the lens at z was scattered at y, so it counts soft_weight
    // times. The other sums of the camera walk are 0 before its first rough event.
    const float by_camera_walk =
        c.z_to_y * (c.joinable + (c.reversed + c.shiny) * c.y_to_lamp + c.merging_at_y);
    const float by_light_walk =
        c.y_to_z * (camera.soft_weight * w.per_join * w.join + c.merging_at_z);
    return 1.0F + (c.passes * (by_camera_walk + by_light_walk) + c.by_sheet) / c.density;
}

// A lamp's point was sampled from a point of a meter's receptor (E105). Densities are over pt.
struct LampAtReceptor {
    float by_sensor_walk = 0;  // the meter walk itself continues to the lamp
    float by_falling = 0;      // the light walk falls on the receptor
    float passes = 1;          // probability with which a walk passes straight over the new edge
};
inline float balance_of_lamp_at_receptor(const LampAtReceptor& lamp) {
    return 1.0F + lamp.passes * (lamp.by_sensor_walk + lamp.by_falling);
}

// A point on lit cloth was sampled for a point of a meter's receptor, and a lamp's point was
// sampled from there (E89). Densities are over ps pt.
struct SheetAtReceptor {
    float by_sensor_walk = 0;  // the meter walk itself reaches the cloth, over pdf_to_cloth
    float pdf_to_cloth = 0;    // of the meter walk's step from the receptor to the cloth, per sr
    float by_joining = 0;      // one light walk reaches the cloth and is joined to the receptor
    float by_falling = 0;      // one light walk reaches the cloth and falls on the receptor
    float light_walks_per_meter_walk = 0;
};
inline float balance_of_sheet_at_receptor(const SheetAtReceptor& sheet) {
    const float others = sheet.by_sensor_walk * sheet.pdf_to_cloth +
                         sheet.light_walks_per_meter_walk * (sheet.by_joining + sheet.by_falling);
    return 1.0F + others;
}

// A light walk fell on a meter's receptor (E106).
struct FallenLight {
    PartialWeights weights;  // of the light walk at the receptor; they do not count merging
    bool first_edge = false;
    // On the first edge: density with which the receptor samples this point of the lamp, per m².
    float pdf_lamp_point = 0;
    float pdf_receptor_point = 0;   // of the receptor's points, per m²
    float pdf_back_along_edge = 0;  // of the meter walk, per sr
    float meter_walks = 0;
    float light_walks_per_counted = 1;  // the fixture's, over those that count at the receptor
};
inline float balance_of_fallen_light(const FallenLight& fallen) {
    const PartialWeights& w = fallen.weights;
    // The vertex just before the receptor is connected to a sampled point of the receptor. On the
    // first edge that vertex is on the lamp, and only the meter walks connect, by sampling the
    // lamp. On later edges the light walk is joined itself (the 1), and on an edge from cloth the
    // meter walks sample the cloth (per_join).
    float connected = fallen.pdf_receptor_point * w.join;
    if (fallen.first_edge) {
        connected *= fallen.meter_walks * fallen.light_walks_per_counted * fallen.pdf_lamp_point;
    } else {
        connected *= 1.0F + fallen.meter_walks * fallen.light_walks_per_counted * w.per_join;
    }
    const float by_meter_walk = fallen.meter_walks * fallen.pdf_receptor_point *
                                fallen.pdf_back_along_edge * w.reversed *
                                fallen.light_walks_per_counted;
    return 1.0F + (connected + by_meter_walk);
}

}  // namespace dapple
