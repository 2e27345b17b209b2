// The clean frame before its light is put back into pixels, for a finer picture (finer_frame.h).
// Linear Rec.709 in cd/m².
#pragma once

#include "clean/colour_planes.h"
#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

struct CoarseLight {
    ColourPlanes on_surfaces;     // light over reflectance, of what each pixel's centre sees
    Plane luminance_on_surfaces;  // luminance over the reflectance for it
    ColourPlanes by_pixel;        // the clean frame, without `held`
    ColourPlanes held;            // what is left in its pixel (hold_back.h)
};

// Light of an earlier frame, and what its pixels saw.
struct KeptLight {
    CoarseLight light;
    SeenPoints seen;
};

// Adds it to the light of a frame of the same size. A pixel that now sees another surface takes the
// light of the nearest pixels that saw this surface then, or keeps its own if none is near.
void add_kept_light(const KeptLight& kept, const SeenPoints& seen, CoarseLight& light);

// `white_luminance`: of white at the camera's setting, cd/m².
CoarseLight clean_coarse_light(const Film& film, const SeenPoints& seen, double white_luminance);

}  // namespace dapple
