// A light meter held flat on what one pixel of a film shows.
//
// Where the surface is matte, its light gives the illuminance on it:
//   E = π L/ρ, mean over the patch, for each colour channel of each light group           (E163)
// L the light of the film, as measured, ρ the albedo of the surface. Other surfaces have no such
// relation; there only their luminance is read. The caller says which surfaces are matte: a film
// does not know.
//
// Error: at most the mean of the pixels' own standard errors. Noise that the pixels share makes it
// that large; noise of their own makes it smaller.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "develop/film_record.h"

namespace dapple {

struct PointReading {
    Point position{0};
    Normal normal{0, 0, 1};
    int32_t surface = -1;          // index into FilmRecord::surfaces
    int pixels = 0;                // of the patch: those around with the same surface
    std::vector<Rgb> light;        // L by light group, exposure units
    std::vector<Rgb> illuminance;  // E by light group, exposure units
    std::optional<double> error;   // relative, of the sum of all groups; none: not known
};

// Nothing where nothing is hit, or where the pixel shows a lamp's own face. x and y are in the
// frame; `seen_along` is the way of the ray from the lens through the middle of that pixel.
std::optional<PointReading> read_point(const FilmRecord& film,
                                       int x,
                                       int y,
                                       const Direction& seen_along);

}  // namespace dapple
