#include "judge/pattern.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "judge/log_remainder.h"
#include "judge/patch_size.h"
#include "judge/share.h"

namespace dapple {

namespace {

constexpr int kFitCells = 6;       // along a region's longer side
constexpr int kFitCellPx = 16;     // at least
constexpr int kBlocksPerCell = 8;  // at least: many more blocks than the six terms of the fit
constexpr double kWantedNoise = 0.2;
constexpr double kMostNoise = 0.5;           // with more, the logarithm is biased
constexpr double kClear = 4;                 // errors; a texture that stands clear of the noise
constexpr double kLeastPatchTexture = 0.05;  // stops; no patch size of a weaker texture
constexpr int kWidestCells = 4;
constexpr int64_t kLeastPatchPixels = 2000;
constexpr double kMostOfWiderCells = 1.2;  // variance in wider cells over that in the cells

// A region in blocks of one size, and its remainder.
struct Level {
    int block = 1;
    int cell = 0;  // blocks
    double noise = 0;
    RegionImage blocks;
    std::optional<LogRemainder> field;

    bool is_clear() const {
        return field && field->covariance >= kClear * field->covariance_stderr &&
               field->covariance > 0;
    }
};

Level make_level(const RegionImage& region, int block, int cell) {
    Level level{block, cell / block, 0, make_blocks(region, block), std::nullopt};
    level.noise = relative_noise(level.blocks);
    if (level.noise <= kMostNoise) level.field = make_log_remainder(level.blocks, level.cell);
    return level;
}

// The level by the rule of pattern.h. Without a field: the coarsest one, to say why.
Level choose_level(const RegionImage& region, int cell) {
    Level best = make_level(region, 1, cell);
    for (int b = 2; kBlocksPerCell * b <= cell; b *= 2) {
        const bool enough = best.noise <= kWantedNoise && best.is_clear();
        if (enough) break;
        Level next = make_level(region, b, cell);
        const bool better =
            !best.field || best.noise > kWantedNoise || next.is_clear() ||
            (next.field && next.field->covariance_stderr < best.field->covariance_stderr);
        if (better) best = std::move(next);
    }
    return best;
}

std::string too_noisy(const Level& level) {
    char text[128];
    std::snprintf(text,
                  sizeof text,
                  "too noisy: %.0f %% in blocks of %d px, at most %.0f %%; more passes",
                  100 * level.noise,
                  level.block,
                  100 * kMostNoise);
    return text;
}

int64_t pixels_of(const RegionImage& region) {
    return std::count(region.inside.begin(), region.inside.end(), 1);
}

// T of T² = v known to e, and its error.
Measure texture_of(double v, double e) {
    const double kept = v > e ? v * (1 - (e / v) * (e / v)) : 0;
    const double texture = std::sqrt(kept);
    const double above = std::sqrt(kept + e) - texture;
    const double below = texture - std::sqrt(std::max(0.0, kept - e));
    return Measure::known(texture, std::max(above, below));
}

// In pixels of the region. Wider cells have larger blocks, so that they have as many of them.
Measure patches_of(const RegionImage& region, const Level& level) {
    if (!level.is_clear()) return Measure::unknown("no texture clear of the noise");
    if (pixels_of(region) < kLeastPatchPixels) {
        return Measure::unknown("too few pixels away from edges: patches need 2000");
    }
    LogRemainder field = *level.field;
    for (int block = level.block; block <= kWidestCells * level.block; block *= 2) {
        auto wider = make_log_remainder(make_blocks(region, 2 * block), level.cell);
        if (!wider || wider->covariance <= kMostOfWiderCells * field.covariance) {
            const bool even = field.covariance < kLeastPatchTexture * kLeastPatchTexture;
            return even ? Measure::unknown("too even to have patches")
                        : scaled(measure_patch_size(field, level.cell), block);
        }
        field = std::move(*wider);
    }
    return Measure::unknown("much of the pattern is as wide as the region");
}

// Share of the pixels above half of the bright light, and its error by E162 in parts of 4 blocks.
Measure measure_cover(const RegionImage& blocks) {
    double light = 0;
    double squares = 0;
    for (size_t i = 0; i < blocks.luminance.size(); ++i) {
        if (!blocks.inside[i]) continue;
        light += blocks.luminance[i];
        squares += blocks.luminance[i] * blocks.luminance[i] - blocks.noise[i] * blocks.noise[i];
    }
    return measure_share(blocks, 4, [half = 0.5 * squares / light](double l) { return l > half; });
}

}  // namespace

Pattern measure_pattern(const RegionImage& region) {
    const auto nothing = [](const std::string& why) {
        const Measure unknown = Measure::unknown(why);
        return Pattern{unknown, unknown, unknown, unknown, 0};
    };
    if (!region.noise_known) return nothing(kNotKnownYet);
    if (!is_lit(region)) return nothing("unlit");
    const int longer = std::max(region.width, region.height);
    const int cell = std::max(kFitCellPx, (longer + kFitCells - 1) / kFitCells);
    const Level level = choose_level(region, cell);
    if (level.noise > kMostNoise) return nothing(too_noisy(level));
    if (!level.field) return nothing(kTooFewPixels);
    Pattern result;
    result.block_px = level.block;
    result.texture_stops = texture_of(level.field->covariance, level.field->covariance_stderr);
    result.patch_px = patches_of(region, level);
    result.patch_cm = scaled(result.patch_px, 100 * region.pixel_m);
    if (!(region.pixel_m > 0)) result.patch_cm = Measure::unknown("distance not known");
    result.cover = measure_cover(level.blocks);
    return result;
}

}  // namespace dapple
