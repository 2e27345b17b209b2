// What the lens makes of lamps on its own, in words and figures: who makes glare, where it falls,
// and what would shade the lens.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "math/vec.h"
#include "scene/in_frame.h"

namespace dapple {

// The light of one pair of reflections, as large and as bright as it is drawn.
struct Ghost {
    int first = 0, second = 0;  // rows of the lens's table, from 1
    DVec2 at{0};                // px, its middle
    double diameter = 0;        // px
    double luminance = 0;       // cd/m², its mean
};

// A lamp that the front element sees.
struct GlareLamp {
    std::string fixture;
    SeenWay way = SeenWay::kDirect;
    std::string mirror;  // kInMirror: the surface that reflects it
    bool in_picture = false;
    double angle = 0;           // rad, from the lens's axis
    double lux = 0;             // at the front element, facing the lamp
    double lit_share = 1;       // of the front element, past the hood
    std::vector<Ghost> ghosts;  // brightest first
    // What would shade the front element from it; nothing: it cannot be done.
    std::optional<double> hood_mm;        // the shortest hood, length
    std::optional<double> move_m;         // of the lamp, straight away from the lens's axis
    std::optional<double> turn_away_deg;  // of the lamp, so that its beam misses the lens
};

struct GlareReport {
    std::string lens;              // "": only a veil
    double f_number = 0;           // the lens's own; it may not open as far as the set's
    double hood_mm = 0;            // as it is set
    double index = 0;              // veiling glare index, 0 to 1
    double ghosts_index = 0;       // the part of the index that ghosts make, not scattered again
    std::vector<GlareLamp> lamps;  // brightest first
};

}  // namespace dapple
