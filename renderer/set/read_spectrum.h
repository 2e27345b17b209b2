// A spectrum of the user's own: a CSV of wavelengths in nanometres and values.
//
// One pair a line, parted by comma, semicolon, tab or blanks; where semicolons part them, a comma
// may stand before the decimals. Lines that start with `#` and headings above the first pair are
// skipped, and so are further columns.
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

// Nothing comes back where the file cannot be read; problems say why.
std::vector<SpectrumPoint> read_spectrum(const std::string& path, Problems& problems);

}  // namespace dapple
