// Which fixtures are the key light and which the fill.
//
// The key: fixtures in whose names the word "key" stands. Without any, the one that gives the
// figure most light; without a figure, the meters. The fill: fixtures with the word "fill". Without
// any, the one but the key that gives most light on the shadow side; without a figure, at the
// meters.
#pragma once

#include <string>
#include <vector>

#include "develop/film_record.h"
#include "judge/figure_sides.h"

namespace dapple {

struct LightRole {
    std::vector<int> fixtures;  // indices; empty: none
    bool by_name = false;       // else by the light that they give
};

struct KeyAndFill {
    LightRole key, fill;
    FigureSides sides;
};

KeyAndFill find_key_and_fill(const FilmRecord& record, const Figure& figure);

// "key", or "net and edge"; "" for none.
std::string names_of(const FilmRecord& record, const LightRole& role);

}  // namespace dapple
