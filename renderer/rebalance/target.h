// What the light should be: one line of the user, such as
//   face key = f/4              a meter's f-stop at the camera's shutter and ISO
//   face key = 0.5 stops        a meter against the camera's f-number; above 0 is brighter
//   face key = 5.6              a number alone is an f-number
//   face key = 800 lx
//   face key:face fill = 4      two meters, all light; also 4:1, or 2 stops
//   key:fill at face key = 4    two fixtures, each alone, at one meter or region
//   key:fill at figure = 4      each at its own of the figure's meters (develop/pair_meters.h)
//   key:fill = 4                each at its own of all meters; also key to fill
//   4:1                         the same
//   back wall = -1 stop         a region's mean against mid grey, 18 % of white
//   back wall = f/4             what a spot meter reads on it: at f/4 it comes out mid grey
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problems.h"
#include "develop/film_record.h"

namespace dapple {

// Light that can be read: of all fixtures or of one, at a meter or on a region.
struct LightSpot {
    int meter = -1;    // index into FilmRecord::meters
    int region = -1;   // index into FilmRecord::regions; one of the two is not -1
    int fixture = -1;  // -1: all

    bool operator==(const LightSpot&) const = default;
};

// What a target may be, for the user.
inline constexpr const char* kTargetForms =
    "\"METER = f/4\" (or 5.6, 800 lx, 0.5 stops), \"REGION = -1 stop\" (or f/4), "
    "\"A:B = 4\" (or 4:1, 2 stops), \"A to B = 4\", \"A:B at METER = 4\" (or REGION, figure); "
    "A and B are two fixtures or two meters";

enum class TargetUnit { kFStop, kStops, kLux, kRatio };

struct Target {
    std::string text;  // as written
    LightSpot light;
    std::optional<LightSpot> against;  // the other side of a ratio
    TargetUnit unit = TargetUnit::kRatio;
    double wanted = 0;  // log2 of lx, of cd/m², or of the ratio
};

// Nothing, with a problem, if it cannot be understood or names something that is not there.
std::optional<Target> parse_target(const FilmRecord& film,
                                   const std::string& text,
                                   Problems& problems);

// The light's log2 in the target's own unit: an f-number, stops, lx or a ratio.
double value_in_unit(const FilmRecord& film, const Target& target, double log_light);

// "f/4 + 3/10", "-1.2 stops", "800 lx", "4.0:1"
std::string value_text(const FilmRecord& film, const Target& target, double log_light);

// "the face key meter", "region back wall"
std::string spot_text(const FilmRecord& film, const LightSpot& spot);

}  // namespace dapple
