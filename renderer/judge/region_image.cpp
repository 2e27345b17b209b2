#include "judge/region_image.h"

#include <cmath>

namespace dapple {

namespace {

constexpr int kPartPx = 16;
constexpr int kNoiseCell = 4;  // blocks

}  // namespace

RegionImage make_blocks(const RegionImage& region, int b) {
    if (b == 1) return region;
    RegionImage blocks;
    blocks.width = (region.width + b - 1) / b;
    blocks.height = (region.height + b - 1) / b;
    blocks.pixel_m = region.pixel_m * b;
    blocks.floor = region.floor;
    blocks.noise_known = region.noise_known;
    const size_t count = static_cast<size_t>(blocks.width) * static_cast<size_t>(blocks.height);
    std::vector<int> pixels(count, 0);
    blocks.luminance.assign(count, 0.0);
    blocks.noise.assign(count, 0.0);
    blocks.inside.assign(count, 0);
    blocks.reflectance.assign(region.reflectance.empty() ? 0 : count, 0.0);
    for (int y = 0; y < region.height; ++y) {
        for (int x = 0; x < region.width; ++x) {
            const size_t from = region.index(x, y);
            if (!region.inside[from]) continue;
            const size_t to = blocks.index(x / b, y / b);
            blocks.luminance[to] += region.luminance[from];
            blocks.noise[to] += region.noise[from];
            if (!region.reflectance.empty()) blocks.reflectance[to] += region.reflectance[from];
            ++pixels[to];
        }
    }
    for (size_t i = 0; i < count; ++i) {
        if (pixels[i] == 0) continue;
        blocks.luminance[i] /= pixels[i];
        blocks.noise[i] /= pixels[i];
        if (!region.reflectance.empty()) blocks.reflectance[i] /= pixels[i];
        blocks.inside[i] = 2 * pixels[i] >= b * b ? 1 : 0;
    }
    return blocks;
}

double relative_noise(const RegionImage& blocks) {
    double sum = 0;
    int64_t pixels = 0;
    visit_cells(blocks, kNoiseCell, 0.5, [&](const CellSums& cell) {
        const double level = std::max(cell.luminance / cell.pixels, blocks.floor);
        sum += cell.noise_squares / (level * level);
        pixels += cell.pixels;
    });
    return pixels > 0 ? std::sqrt(sum / static_cast<double>(pixels)) : 0;
}

Measure mean_luminance(const RegionImage& region) {
    double sum = 0;
    double squares = 0;
    int64_t pixels = 0;
    visit_cells(region, kPartPx, 0, [&](const CellSums& cell) {
        sum += cell.luminance;
        squares += cell.noise * cell.noise;
        pixels += cell.pixels;
    });
    if (pixels == 0) return Measure::unknown(kNoPixels);
    const auto count = static_cast<double>(pixels);
    Measure mean = Measure::known(sum / count, std::sqrt(squares) / count);
    if (!region.noise_known) mean.error.reset();
    return mean;
}

}  // namespace dapple
