// The clean frame: the film with its noise evened out between pixels that statistical tests find
// alike. Nothing is invented.
#pragma once

#include <vector>

#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

struct CleanFrame {
    int width = 0, height = 0;
    std::vector<Xyz> total;                // all light, Y in cd/m²
    std::vector<float> luminance_stderr;   // cd/m², estimated (clean_error.h)
    std::vector<std::vector<Xyz>> layers;  // by light group
};

CleanFrame clean_film(const Film& film, const SeenPoints& seen, double white_luminance, bool with_layers = false);

// Median over pixels of the standard error over the mean, in per cent, on a lattice as for E88.
double typical_error_percent(const CleanFrame& frame);

}  // namespace dapple
