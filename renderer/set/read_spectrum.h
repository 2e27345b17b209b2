// Reads a spectrum of the user's own: a CSV file of wavelengths in nanometres and values.
//
// Each line is one pair, separated by a comma, a semicolon, a tab or blanks. If semicolons separate
// them, the decimals may follow a comma. Lines that start with `#`, headings above the first pair
// and further columns are skipped.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct SpectrumPoint {
    double nm = 0;
    double value = 0;
    Place place;
};

// Returns no points, with a problem, if the file cannot be read.
std::vector<SpectrumPoint> read_spectrum(const std::string& path, Problems& problems);

}  // namespace dapple
