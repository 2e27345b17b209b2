// The weight of one technique among all techniques that can make the same path (balance heuristic,
// Veach 1995).
//
// Each function returns the *balance* of a technique: the sum of the densities of all techniques,
// itself included, over its own density. The weight is 1 / balance. Over all techniques the
// weights of one path sum to 1; tests/transport/weights_test.cpp checks that on paths made by hand.
#pragma once

#include "transport/weights.h"

namespace dapple {

// What the techniques need of a sensor walk that stands at a vertex.
struct SensorSums {
    PartialWeights weights;  // of a meter walk: without merging
    // How many times a light walk counts that is joined to the lens after it was scattered (E73).
    float soft_weight = 1;
    bool rough_after_first = false;  // PathHistory::rough_after_first()

    // All light walks that were scattered, here or earlier, on their way to the sensor.
    float scattered() const { return soft_weight * weights.reversed + weights.merged; }
};

// A sensor walk met a lamp (E46).
struct MetLamp {
    float asked = 0;  // density with which the vertex before draws this point of the lamp, per m²
    float emitted = 0;  // density of the light walk's first ray, N pA pω
};
inline float balance_of_met_lamp(const SensorSums& sensor, const MetLamp& lamp) {
    // Where nothing rough happened after the first event, the light walk that is joined to the lens
    // was not scattered, so it counts once.
    const float by_light_walk = sensor.rough_after_first
                                    ? sensor.scattered()
                                    : sensor.weights.reversed + sensor.weights.merged;
    return 1.0F + lamp.asked * sensor.weights.join + lamp.emitted * by_light_walk;
}

// A lamp was asked from a vertex of a sensor walk (E47). Densities are relative to the density of
// the lamp's point, pt.
struct AskedLamp {
    float met = 0;      // the sensor walk goes on to the lamp by itself
    float walked = 0;   // the light walk reaches the vertex, N pA pω cosθ/d²
    float reverse = 0;  // the light walk scatters at the vertex into the sensor walk's edge, per sr
    float passes = 1;   // probability with which a walk passes straight over the new edge
    float by_sheet = 0;  // the vertex is drawn by sheet sampling, relative to the sensor walk
};
inline float balance_of_asked_lamp(const SensorSums& sensor, const AskedLamp& lamp) {
    const PartialWeights& w = sensor.weights;
    const float others =
        lamp.by_sheet +
        lamp.passes *
            (lamp.met + lamp.walked * (w.per_join * w.join + sensor.scattered() * lamp.reverse));
    return 1.0F + others;
}

// A lamp was asked from a point that was drawn on lit cloth for a vertex of a sensor walk (E71).
// Densities are relative to those of the two points drawn, ps pt.
struct AskedSheet {
    float met = 0;      // the sensor walk reaches the cloth by itself; without `pdf`
    float pdf = 0;      // of the sensor walk towards the cloth, per sr
    float walked = 0;   // the light walk reaches the vertex by way of the cloth
    float reverse = 0;  // the light walk scatters at the vertex into the sensor walk's edge, per sr
};
inline float balance_of_asked_sheet(const SensorSums& sensor, const AskedSheet& sheet) {
    const PartialWeights& w = sensor.weights;
    const float others =
        sheet.met * sheet.pdf + sheet.walked * (sensor.soft_weight * w.per_join * w.join +
                                                sensor.scattered() * sheet.reverse);
    return 1.0F + others;
}

// A vertex of a light walk was joined to a sensor (E49).
struct SensorJoin {
    PartialWeights weights;  // of the light walk; for a meter without merging
    bool is_shiny = false;   // the vertex
    float pdf_back = 0;      // the light walk's last event in the other direction, per sr
    float pdf_on = 0;        // the light walk towards the sensor, per sr
    float walked = 0;        // a sensor walk reaches the vertex, times the number of sensor walks
    float light_walks = 1;   // the fixture's light walks over those that this sensor sees
    float caught = 0;        // a light walk falls on the sensor by itself; without pdf_on / d²
    float distance2 = 1;     // d², m²
    float sheet_drawn = 0;   // sheet samples of the sensor itself × ps; only on the first edge
    float passes = 1;        // probability with which a walk passes straight over the new edge
    float soft_weight = 1;   // how many times this join counts (E73)
};
inline float balance_of_sensor_join(const SensorJoin& join) {
    const PartialWeights& w = join.weights;
    const float joinable = w.per_join * w.join * join.light_walks;
    float others = join.walked * (joinable + (w.reversed + (join.is_shiny ? w.shiny : 0.0F)) *
                                                 join.light_walks * join.pdf_back);
    others += join.pdf_on * join.caught / join.distance2;
    others += joinable * join.sheet_drawn;
    others /= join.soft_weight;
    return 1.0F + join.passes * others;
}

// A photon was merged with a camera walk (E65).
struct MergedPhoton {
    float joinable = 0;  // per_join · join of the light walk
    float reversed = 0;  // sums of the light walk
    float shiny = 0;
    float pdf_on = 0;    // the camera walk towards the lamp, per sr
    float pdf_back = 0;  // the light walk towards the lens, per sr
    float area = 0;      // merging area times the share of photons that is kept, m²
};
inline float balance_of_merged_photon(const SensorSums& camera, const MergedPhoton& photon) {
    const float others = (photon.joinable + (photon.reversed + photon.shiny) * photon.pdf_on +
                          (camera.scattered() + camera.weights.waiting) * photon.pdf_back) /
                         photon.area;
    return 1.0F + others;
}

// A lamp was asked at a meter's receptor itself (E61).
struct AskedAtReceptor {
    float met = 0;     // the meter walk goes on to the lamp by itself
    float fallen = 0;  // the light walk falls on the receptor
    float passes = 1;  // probability with which a walk passes straight over the new edge
};
inline float balance_of_asked_at_receptor(const AskedAtReceptor& lamp) {
    return 1.0F + lamp.passes * (lamp.met + lamp.fallen);
}

// A lamp was asked from a point that was drawn on lit cloth for the receptor itself (E71).
struct SheetAtReceptor {
    float met = 0;          // the meter walk reaches the cloth by itself; without `pdf`
    float pdf = 0;          // of the meter walk towards the cloth, per sr
    float joined = 0;       // the light walk reaches the cloth and is joined to the receptor
    float falls = 0;        // the light walk reaches the cloth and falls on the receptor
    float light_walks = 0;  // for one meter walk
};
inline float balance_of_sheet_at_receptor(const SheetAtReceptor& sheet) {
    const float others = sheet.met * sheet.pdf + sheet.light_walks * (sheet.joined + sheet.falls);
    return 1.0F + others;
}

// A light walk fell on a meter's receptor (E62).
struct FallenLight {
    PartialWeights weights;  // of the light walk at the receptor, without merging
    bool first_edge = false;
    float asked = 0;     // on the first edge: density of the lamp's point seen from here, per m²
    float pdf_area = 0;  // of the receptor's points, per m²
    float pdf_walk = 0;  // of the meter walk back along the edge, per sr
    float meter_walks = 0;
    float light_walks = 1;  // the fixture's light walks over those that may fall
};
inline float balance_of_fallen_light(const FallenLight& fallen) {
    const PartialWeights& w = fallen.weights;
    // The vertex before joined to a point of the receptor. On the first edge that vertex is the
    // lamp, and the meter walks ask it.
    float joined = fallen.pdf_area * w.join;
    if (fallen.first_edge) {
        joined *= fallen.meter_walks * fallen.light_walks * fallen.asked;
    } else {
        joined *= 1.0F + fallen.meter_walks * fallen.light_walks * w.per_join;
    }
    const float walked =
        fallen.meter_walks * fallen.pdf_area * fallen.pdf_walk * w.reversed * fallen.light_walks;
    return 1.0F + (joined + walked);
}

}  // namespace dapple
