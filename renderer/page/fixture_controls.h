// What the page's sliders do to a fixture's light: tables of 3 × 3 matrices for the colours of its
// layers. Between two entries of a lamp that warms the page interpolates; an LED's slider has no
// other positions.
#pragma once

#include <string>
#include <vector>

#include "develop/film_record.h"

namespace dapple {

// One position: of the colour slider of an LED, or of the dimmer of a lamp that warms.
struct ControlEntry {
    double at = 0;     // K, or the dimmer
    double cct_k = 0;  // of the light, without its gel
    // By layer of the fixture, in the film's order: the new light is Σ matrix · layer. For the
    // film's dimmer; of a lamp that warms, per share of light.
    std::vector<DMat3> matrices;
};

struct FixtureControl {
    enum class Kind { kPlain, kLed, kWarming, kDark };
    Kind kind = Kind::kPlain;  // kDark: there is no light to scale
    std::vector<int> layers;   // indices into the film's layers
    std::vector<ControlEntry> entries;
};

FixtureControl make_fixture_control(const FilmRecord& film, size_t fixture);

}  // namespace dapple
