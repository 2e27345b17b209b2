#include "develop/pattern.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/parallel.h"
#include "develop/log_remainder.h"

namespace dapple {

namespace {

constexpr int kUniformityCells = 16;  // along the longer side
constexpr int kUniformityCellPx = 8;  // at least
constexpr int kLeastCells = 4;        // fewer do not show evenness

// No patch size is measured of a texture weaker than this.
constexpr double kLeastTextureStops = 0.1;
constexpr double kLeastTextureOverNoise = 0.5;  // ratio of variances
constexpr double kMostOfWiderCells = 2.0;       // variance in wider cells over that in the cells

int cell_size(const RegionImage& region, int cells, int least) {
    return std::max(least, (std::max(region.width, region.height) + cells - 1) / cells);
}

// Calls visit(means) for each square of `size` px of which at least half is inside the region.
struct CellMeans {
    double luminance = 0, variance = 0;
    int pixels = 0;
};
template <typename Visit>
void visit_cells(const RegionImage& region, int size, const Visit& visit) {
    for (int y0 = 0; y0 < region.height; y0 += size) {
        for (int x0 = 0; x0 < region.width; x0 += size) {
            CellMeans cell;
            for (int y = y0; y < std::min(y0 + size, region.height); ++y) {
                for (int x = x0; x < std::min(x0 + size, region.width); ++x) {
                    const size_t i = region.index(x, y);
                    if (!region.inside[i]) continue;
                    cell.luminance += region.luminance[i];
                    cell.variance += region.variance[i];
                    ++cell.pixels;
                }
            }
            if (2 * cell.pixels < size * size) continue;
            cell.luminance /= cell.pixels;
            cell.variance /= cell.pixels;
            visit(cell);
        }
    }
}

// Mean of σ²/L², both averaged over cells of 8 × 8 px: with few samples the σ and L of a single
// pixel are no measure of its noise.
double relative_noise_variance(const RegionImage& region) {
    double sum = 0;
    int cells = 0;
    visit_cells(region, 8, [&](const CellMeans& cell) {
        const double level = std::max(cell.luminance, region.floor);
        sum += cell.variance / (level * level);
        ++cells;
    });
    return cells > 0 ? sum / cells : 0;
}

// The side of a block in pixels; nothing if even the largest block leaves too much noise.
std::optional<int> choose_block(const RegionImage& region, int largest) {
    constexpr double kWanted = 0.2;
    constexpr double kMost = 0.3;  // of the mean; with more noise the logarithm is biased
    const double noise = std::sqrt(relative_noise_variance(region));
    int block = 1;
    while (2 * block <= largest && noise > kWanted * block) block *= 2;
    if (noise > kMost * block) return std::nullopt;
    return block;
}

// Means over b × b px, of the blocks of which at least half is inside the region.
RegionImage make_blocks(const RegionImage& region, int b) {
    if (b == 1) return region;
    RegionImage blocks = region;
    blocks.width = (region.width + b - 1) / b;
    blocks.height = (region.height + b - 1) / b;
    const size_t count = static_cast<size_t>(blocks.width) * static_cast<size_t>(blocks.height);
    std::vector<int> pixels(count, 0);
    blocks.luminance.assign(count, 0.0);
    blocks.variance.assign(count, 0.0);
    blocks.inside.assign(count, 0);
    for (int y = 0; y < region.height; ++y) {
        for (int x = 0; x < region.width; ++x) {
            const size_t from = region.index(x, y);
            if (!region.inside[from]) continue;
            const size_t to = blocks.index(x / b, y / b);
            blocks.luminance[to] += region.luminance[from];
            blocks.variance[to] += region.variance[from];
            ++pixels[to];
        }
    }
    for (size_t i = 0; i < count; ++i) {
        if (pixels[i] == 0) continue;
        blocks.luminance[i] /= pixels[i];
        blocks.variance[i] /= static_cast<double>(pixels[i]) * pixels[i];
        blocks.inside[i] = 2 * pixels[i] >= b * b ? 1 : 0;
    }
    return blocks;
}

double autocorrelation(const LogRemainder& field, int dx, int dy) {
    double sum = 0;
    int64_t pairs = 0;
    for (int y = 0; y + dy < field.height; ++y) {
        for (int x = std::max(0, -dx); x < std::min(field.width, field.width - dx); ++x) {
            const float a = field.at(x, y);
            const float b = field.at(x + dx, y + dy);
            if (std::isnan(a) || std::isnan(b)) continue;
            sum += static_cast<double>(a) * b;
            ++pairs;
        }
    }
    return pairs > 0 ? sum / static_cast<double>(pairs) : 0;
}

// Full width, in blocks, of the autocorrelation along (dx, dy), half of the way down from its
// peak to its first minimum (E113). `peak` is the autocorrelation at lag 0 without the noise, which
// adds to lag 0 alone. Returns nothing if the pattern does not end within `reach` steps.
std::optional<double> correlation_width(
    const LogRemainder& field, int dx, int dy, double peak, int reach) {
    std::vector<double> a = {peak};
    size_t lowest = 0;
    for (int lag = 1; lag <= reach; ++lag) {
        a.push_back(autocorrelation(field, lag * dx, lag * dy));
        if (a.back() < a[lowest]) lowest = a.size() - 1;
        const double depth = peak - a[lowest];
        if (depth > 0.5 * peak && a.back() > a[lowest] + 0.1 * depth) break;  // past the minimum
    }
    if (a[lowest] > 0.5 * peak) return std::nullopt;
    const double half = 0.5 * (peak + a[lowest]);
    size_t k = 1;
    while (a[k] > half) ++k;
    const double crossing = static_cast<double>(k - 1) + (a[k - 1] - half) / (a[k - 1] - a[k]);
    return 2 * crossing * std::hypot(dx, dy);
}

double texture_variance(const LogRemainder& field) {
    return std::max(0.0, field.variance - field.noise);
}

// Whether there is a pattern, and most of it is narrower than a cell.
bool has_size(const RegionImage& blocks, const LogRemainder& field, int cell) {
    const double texture = texture_variance(field);
    if (texture < kLeastTextureStops * kLeastTextureStops) return false;
    if (texture < kLeastTextureOverNoise * field.noise) return false;
    const auto wider = make_log_remainder(blocks, 2 * cell);
    return !wider || texture_variance(*wider) <= kMostOfWiderCells * texture;
}

std::optional<double> patch_size(const LogRemainder& field, int reach) {
    const double peak = texture_variance(field);
    constexpr std::array<std::array<int, 2>, 4> kSteps = {{{1, 0}, {0, 1}, {1, 1}, {-1, 1}}};
    std::array<std::optional<double>, 4> widths;
    parallel_blocks(4, 1, [&](int64_t i, int64_t) {
        const auto& step = kSteps[static_cast<size_t>(i)];
        widths[static_cast<size_t>(i)] = correlation_width(field, step[0], step[1], peak, reach);
    });
    std::optional<double> narrowest;
    for (const auto& width : widths) {
        if (width && (!narrowest || *width < *narrowest)) narrowest = width;
    }
    return narrowest;
}

double measure_cover(const RegionImage& blocks) {
    double light = 0;
    double squares = 0;
    int64_t count = 0;
    for (size_t i = 0; i < blocks.luminance.size(); ++i) {
        if (!blocks.inside[i]) continue;
        light += blocks.luminance[i];
        squares += blocks.luminance[i] * blocks.luminance[i] - blocks.variance[i];
        ++count;
    }
    if (!(light > 0)) return 0;
    const double bright = squares / light;
    int64_t covered = 0;
    for (size_t i = 0; i < blocks.luminance.size(); ++i) {
        if (blocks.inside[i] && blocks.luminance[i] > 0.5 * bright) ++covered;
    }
    return static_cast<double>(covered) / static_cast<double>(count);
}

}  // namespace

std::optional<Uniformity> measure_uniformity(const RegionImage& region) {
    double sum = 0;
    int cells = 0;
    CellMeans darkest;
    visit_cells(
        region, cell_size(region, kUniformityCells, kUniformityCellPx), [&](const CellMeans& cell) {
            sum += cell.luminance;
            if (cells++ == 0 || cell.luminance < darkest.luminance) darkest = cell;
        });
    if (cells < kLeastCells || !(sum > 0)) return std::nullopt;
    const double mean = sum / cells;
    return Uniformity{darkest.luminance / mean,
                      std::sqrt(darkest.variance / darkest.pixels) / mean};
}

std::optional<Pattern> measure_pattern(const RegionImage& region) {
    if (!region.noise_known) return std::nullopt;
    constexpr int kBlocksPerCell = 8;  // at least: many more blocks than the six terms of the fit
    const int cell = cell_size(region, kFitCells, kFitCellPx);
    const auto block = choose_block(region, cell / kBlocksPerCell);
    if (!block) return std::nullopt;
    const RegionImage blocks = make_blocks(region, *block);
    const int block_cell = cell / *block;
    const auto field = make_log_remainder(blocks, block_cell);
    if (!field) return std::nullopt;
    Pattern result;
    result.block_px = *block;
    result.texture_stops = std::sqrt(texture_variance(*field));
    const auto width =
        has_size(blocks, *field, block_cell) ? patch_size(*field, block_cell) : std::nullopt;
    if (width) {
        result.patch_px = *width * *block;
        if (region.pixel_m > 0) result.patch_cm = 100 * *result.patch_px * region.pixel_m;
    }
    result.cover = measure_cover(blocks);
    return result;
}

}  // namespace dapple
