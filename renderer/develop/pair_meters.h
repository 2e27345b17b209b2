// Which meter shows one light, and which the other: key and fill above all.
//
// Judging, balancing and the film's page all go by this, so that key : fill is the same everywhere:
//   1. A meter's name says it: "face, key side" and "lit side" are the key's, "face fill" and
//      "shadow side" the fill's.
//   2. Else a meter that faces one of the fixtures, to 3°, is that fixture's.
//   3. Else the key's is the meter that the key lights most. The fill's is the meter within half a
//      metre of it that the key lights least; without one, both are the same meter.
// Where several meters may be it, light decides as in 3. Names and facings come first because glass
// before the key can leave its own meter darker in its light than the fill's. Common practice, no
// source.
#pragma once

#include <string>
#include <vector>

#include "develop/film_record.h"

namespace dapple {

// One of the two lights.
struct MeteredLight {
    std::vector<int> fixtures;       // indices
    std::vector<std::string> words;  // in small letters; a meter with one of them shows this light
};

// Key or fill by the words in the name of a fixture; other lights have no words.
MeteredLight metered_light(const FilmRecord& record, int fixture);
MeteredLight metered_key(std::vector<int> fixtures);
MeteredLight metered_fill(std::vector<int> fixtures);

// Indices into FilmRecord::meters; -1: none. They are equal if one meter shows both.
struct MeterPair {
    int first = -1, second = -1;
    bool is_one() const { return first == second; }
};

// Of the `candidates`, indices into FilmRecord::meters.
MeterPair pair_meters(const FilmRecord& record,
                      const MeteredLight& first,
                      const MeteredLight& second,
                      const std::vector<int>& candidates);
// Of all meters.
MeterPair pair_meters(const FilmRecord& record,
                      const MeteredLight& first,
                      const MeteredLight& second);

}  // namespace dapple
