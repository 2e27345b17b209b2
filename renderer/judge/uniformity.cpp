#include "judge/uniformity.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kUniformityCells = 16;  // along the longer side
constexpr int kUniformityCellPx = 8;  // at least
constexpr int kLeastCells = 4;        // fewer do not show evenness

}  // namespace

Measure measure_uniformity(const RegionImage& region) {
    const int longer = std::max(region.width, region.height);
    const int size =
        std::max(kUniformityCellPx, (longer + kUniformityCells - 1) / kUniformityCells);
    double sum = 0;
    double noise_squares = 0;
    int cells = 0;
    double darkest = 0;
    visit_cells(region, size, 0.5, [&](const CellSums& cell) {
        const double mean = cell.luminance / cell.pixels;
        const double noise = cell.noise / cell.pixels;
        sum += mean;
        noise_squares += noise * noise;
        if (cells++ == 0 || mean < darkest) darkest = mean;
    });
    if (cells < kLeastCells) return Measure::unknown("too few pixels: fewer than four cells");
    if (!(sum > 0)) return Measure::unknown("unlit");
    const double mean = sum / cells;
    Measure u0 = Measure::known(darkest / mean, std::sqrt(darkest * noise_squares / sum) / mean);
    if (!region.noise_known) u0.error.reset();
    return u0;
}

}  // namespace dapple
