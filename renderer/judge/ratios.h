// Lighting ratios: from the meters, and from the surfaces of the figure.
//
// The trade counts key to fill in two ways, and names them alike. Both are here, with the way:
//   each alone       key : fill                                                           (E171)
//   as lit           (key + fill) : fill
// The first is what a meter reads with one light on at a time, facing each. The second is what the
// lit side has to the shadow side, which the key does not reach. The third, lit side to shadow side
// in all light, counts every fixture.
// From meters: the key's meter and the fill's (develop/pair_meters.h).
// From the figure: mean luminance over reflectance on the lit side and on the shadow side
// (figure_sides.h): the key on the lit side, the fill on the shadow side.
#pragma once

#include <string>
#include <vector>

#include "judge/key_and_fill.h"
#include "judge/measure.h"

namespace dapple {

struct Ratio {
    std::string from;        // "meters" or "figure"
    std::string name;        // "key : fill", "key + fill : fill", "lit : shadow side"
    std::string definition;  // what is divided by what, with the names of fixtures and meters
    Measure value;           // :1
};

std::vector<Ratio> measure_ratios(const FilmRecord& record, const KeyAndFill& lights);

}  // namespace dapple
