// The figure in the frame, and its lit side and shadow side.
//
// The figure is what the pixels see of surfaces in whose names one of the words figure, skin, face,
// hair, dress or cape stands; with no such surface, of regions with such names. Its sides are found
// on skin and face where there are some.
//
// The key's light on a surface is its luminance over the reflectance. It rises in the direction
//   k = Σ (E - mean E) n,  E = Y_key/ρ,  sum over the figure's pixels                     (E170)
// n normal, ρ reflectance. The lit side is the third of the pixels whose normals are turned most
// towards k, the shadow side the third turned most away. So both sides are there in every film, and
// they hardly change with its noise. E170 and the thirds are our own.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "develop/film_record.h"

namespace dapple {

struct Figure {
    std::vector<int32_t> pixels;  // all of it, ascending
    std::vector<int32_t> skin;    // of skin and face; without any: all of it
};

Figure find_figure(const FilmRecord& record);

struct FigureSides {
    std::vector<int32_t> lit, shadow;  // pixels, ascending; empty if there are none
    std::string why;                   // if they are empty
};

// `key`: indices of the fixtures that are the key light.
FigureSides find_figure_sides(const FilmRecord& record,
                              const Figure& figure,
                              const std::vector<int>& key);

}  // namespace dapple
