// The part of the frame that holds a region, cut out along pixel edges, and what measures of it
// have in common.
//
// `noise` is one sample of the noise in `luminance`, without signal: half of the difference of two
// independent halves of the passes' walks (E132). So L + H and L - H are two films of the same
// light, each of half of the walks, and their noises are independent of each other. Every measure
// gets its standard error from the two:
//   s² = Σ ((q(L + H) - q(L - H))/2)²,   sum over parts of the region                     (E162)
// q is a part's contribution to the measure. Noise that neighbouring pixels share is counted,
// because a part is much wider than the splats that make it.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "judge/measure.h"

namespace dapple {

struct RegionImage {
    int width = 0, height = 0;
    double pixel_m = 0;               // width of a pixel on the surface, m; 0: not known
    double floor = 0;                 // cd/m²; darker pixels count as this in logarithms
    bool noise_known = true;          // false after a single pass
    std::vector<double> luminance;    // cd/m²
    std::vector<double> noise;        // H, cd/m²
    std::vector<char> inside;         // 1: belongs to the region
    std::vector<double> reflectance;  // 0 to 1, of what is seen; empty: the same everywhere

    size_t index(int x, int y) const {
        return static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x);
    }
};

// What a square cell of a region holds.
struct CellSums {
    double luminance = 0, noise = 0, noise_squares = 0;
    int pixels = 0;
};

// Calls visit(sums) for each square of `size` px of which at least the part `least` is inside.
template <typename Visit>
void visit_cells(const RegionImage& region, int size, double least, const Visit& visit) {
    for (int y0 = 0; y0 < region.height; y0 += size) {
        for (int x0 = 0; x0 < region.width; x0 += size) {
            CellSums cell;
            for (int y = y0; y < std::min(y0 + size, region.height); ++y) {
                for (int x = x0; x < std::min(x0 + size, region.width); ++x) {
                    const size_t i = region.index(x, y);
                    if (!region.inside[i]) continue;
                    cell.luminance += region.luminance[i];
                    cell.noise += region.noise[i];
                    cell.noise_squares += region.noise[i] * region.noise[i];
                    ++cell.pixels;
                }
            }
            if (cell.pixels > 0 && cell.pixels >= least * size * size) visit(cell);
        }
    }
}

// Means over b × b px, of the blocks of which at least half is inside the region.
RegionImage make_blocks(const RegionImage& region, int b);

// Noise over luminance, root of its mean square over cells of some blocks: with few samples the
// noise and the luminance of a single pixel are no measure of it. 0 if no cell is large enough.
double relative_noise(const RegionImage& blocks);

// A measure that has an error, times a factor.
inline Measure scaled(Measure m, double factor) {
    if (m) m = Measure::known(*m * factor, *m.error * factor);
    return m;
}

// Mean luminance of the region, cd/m², with the error by E162 in parts of 16 px.
Measure mean_luminance(const RegionImage& region);

}  // namespace dapple
