// Densities of hand-made paths by their definition: products over the steps that a technique makes,
// times the number of its samples.
//
// A smooth event has no density per sr, so its probability is used in both directions. The delta
// factor that both directions share is left out, as in the renderer. For refraction the factors of
// the two directions are not quite equal. The weights of a path sum to 1 with any common factor.
#pragma once

#include "transport/hand_made_path.h"

namespace dapple::test {

// Density with which `walks` light walks reach vertex i, i = 1 … n + 1.
double density_by_light_walk(const HandMadePath& path, double walks, int i);

// Density with which the sensor's walks reach vertex i, i = n … 0.
double density_by_sensor_walk(const HandMadePath& path, int i);

// Whether photons are merged at vertex i, by the rule on top of transport/weights.h.
bool merges_at(const HandMadePath& path, int i);

}  // namespace dapple::test
