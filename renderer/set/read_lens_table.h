// Reads a lens table of the user's own: the rows of a prescription, as written.
//
// A line is one surface, from the front: radius of curvature, thickness to the next surface, index
// of what follows, its Abbe number, free diameter. Lengths are in millimetres. The word `stop` in
// place of the index is the aperture. A dash for the Abbe number, or only four columns: not known.
// Words are separated by commas, semicolons, tabs or blanks; lines that start with # and headings
// above the first row are skipped.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct LensRowDescription {
    double radius_mm = 0;
    double thickness_mm = 0;
    double index = 1;
    double abbe = 0;  // 0: not known
    double free_diameter_mm = 0;
    bool is_stop = false;
    Place place;
};

// Returns no rows, with a problem, if the file cannot be read.
std::vector<LensRowDescription> read_lens_table(const std::string& path, Problems& problems);

}  // namespace dapple
