// The clean frame: the film with its noise evened out between pixels whose light is the same as
// far as the passes can tell. Light is moved between pixels and none is added or guessed. Specks
// that hardly any pass has found and that are too bright to be spread are not shown (sure_light.h).
//
// The film stays as it is. All measures are taken from the film, none from the clean frame.
#pragma once

#include <vector>

#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

struct CleanFrame {
    int width = 0, height = 0;
    std::vector<Xyz> total;                // all light, Y in cd/m²
    std::vector<float> luminance_stderr;   // cd/m², estimated (clean_error.h)
    std::vector<std::vector<Xyz>> layers;  // by light group, if asked for; they add up to `total`
};

// `white_luminance`: of white at the camera's setting, cd/m².
CleanFrame clean_film(const Film& film,
                      const SeenPoints& seen,
                      double white_luminance,
                      bool with_layers = false);

// Median over pixels of the estimated error over the luminance, in per cent, on a fixed lattice of
// a few thousand pixels; 0 if the frame is dark. As E115 for the film.
double typical_error_percent(const CleanFrame& frame);

}  // namespace dapple
