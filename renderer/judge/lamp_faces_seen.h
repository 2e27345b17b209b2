// The pixels that show a lamp's own face. Its light is no light on the set, so these pixels are
// left out of shares, means and measures. A window is part of the picture and stays.
//
// The centre of the pixel sees the face first, or a pixel so near to one that the lens spreads the
// face over it: within one pixel, and within half of the blur of a thing out of focus,
//   c = (f/N) f |d - s| / (d (s - f))                                                     (E113)
// c diameter of the blur on the sensor, f focal length, N f-number, s distance of the focus, d of
// the face, all in m. A face smaller than a pixel may be missed.
#pragma once

#include <vector>

#include "develop/film_record.h"

namespace dapple {

// By pixel: 1 for a lamp's face.
std::vector<char> find_lamp_faces_seen(const FilmRecord& record);

// Diameter of the blur on the sensor, m, of a thing at `depth`; 0 if everything is sharp.
double blur_diameter(const Camera& camera, double depth);

}  // namespace dapple
