// Which of many places are looked at more closely: the best ones, and good ones that look unlike.
//
//   unlike(a, b)² = mean_i (a_i - b_i)²                                                   (E187)
// a and b are what the light looks like at two places: a list of numbers in stops (doublings), such
// as the brightness of parts of a region. The best place is first. Then come the next best, without
// those that are almost the same place. Then, of the better quarter of all places, the one that is
// most unlike all chosen so far, and so on (Gonzalez 1985: farthest point first).
#pragma once

#include <cstddef>
#include <vector>

namespace dapple {

struct RatedPlace {
    std::vector<double> u;      // coordinates, 0 to 1
    double score = 0;           // the less the better
    std::vector<float> look{};  // stops
};

double unlikeness(const RatedPlace& a, const RatedPlace& b);

// Indices of up to `best` + `unlike` places.
std::vector<size_t> choose_places(const std::vector<RatedPlace>& places,
                                  size_t best,
                                  size_t unlike);

}  // namespace dapple
