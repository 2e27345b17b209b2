// All that a film has summed so far; what a checkpoint keeps.
//
// Films of different passes can be added in any order to the same bits. So every part is a sum of
// integers, a maximum, or a list with one entry for each pass, in the order of their numbers.
#pragma once

#include <cstdint>
#include <vector>

#include "film/pass_ranges.h"
#include "film/pass_sums.h"

namespace dapple {

// One number for each pixel, in quanta of the film (cd/m²).
using QuantaPlane = std::vector<int64_t>;
// A sum of squares in quanta². Exact, so the spread over passes is as well.
using SquareSum = unsigned __int128;

struct FilmState {
    static constexpr double kDrawnQuantum = 0x1p-36;  // of drawn_xyz

    PassRanges passes;
    uint64_t rays = 0;  // of the walks of all passes
    uint64_t nonfinite = 0;
    FilmSums sums;                   // [group][xyz][pixel]
    std::vector<int64_t> drawn_xyz;  // [group][xyz], over passes, in units of kDrawnQuantum
    // By pixel, over passes. Luminance is that of the pass, corrected with the pass's own ratio and
    // rounded to a quantum.
    std::vector<SquareSum> luminance_squares;
    QuantaPlane walk_differences;  // light walks, ±(first half less second half): [xyz][pixel]
    QuantaPlane other_light;       // luminance of all but light walks
    QuantaPlane odd_other_light;   // the same, of passes 1, 3, 5 …
    QuantaPlane brightest_pass;    // the largest luminance
    // XYZ of the even passes (0, 2, 4 …) and of the odd ones, each pass corrected with its own
    // ratio: [odd][xyz][pixel]. Both Y together are the sum of the luminances.
    QuantaPlane colour_sums;
    // Mean luminance of each pass in cd/m², by the passes' numbers: [pass * groups + group].
    std::vector<double> frame_passes;
    std::vector<std::vector<double>> region_passes;  // by region
};

// Whether both are of films of one size, with as many groups and regions. Passes do not matter.
bool is_like(const FilmState& a, const FilmState& b);

}  // namespace dapple
