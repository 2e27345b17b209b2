// Pixels at the edges of things: gaps between planks, outlines, corners. Their light changes with
// what they see, not with the light, so the texture of light leaves them out.
//
// On a plane 1/depth is linear in the frame. A pixel is at an edge if one of its neighbours along
// the row or the column has another normal (more than 20° away), or if
//   |1/d(-1) - 2/d(0) + 1/d(+1)| > f/d²                                                   (E164)
// d depth of the pixel and of its neighbours on both sides, f width of a pixel on the surface, m:
// the surface is a pixel's width off the plane. The neighbours of an edge count as edges too.
#pragma once

#include <vector>

#include "develop/film_record.h"

namespace dapple {

// By pixel: 1 at an edge. All 0 if it is not known what the pixels see.
std::vector<char> find_surface_edges(const FilmRecord& record);

}  // namespace dapple
