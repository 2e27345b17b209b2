#include "render/haze_glow.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "clean/exchange.h"

namespace dapple {

namespace {

constexpr float kAlikeLength = 0.1F;  // relative difference from which legs exchange nothing
constexpr size_t kMostLevels = 6;

float like_length(float a, float b) {
    const float difference = std::abs(a - b);
    return std::max(0.0F, 1.0F - difference / (kAlikeLength * std::min(a, b)));
}

std::vector<Links> link_legs(const SeenHaze& seen,
                             std::span<const uint8_t> taken,
                             size_t level,
                             float strength) {
    const Plane& lengths = seen.length;
    const int step = 1 << level;
    std::vector<Links> all;
    for (const glm::ivec2 offset : {glm::ivec2(1, 0), {-1, 1}, {0, 1}, {1, 1}}) {
        const float kernel = strength * (offset.x == 0 || offset.y == 0 ? 0.5F : 0.25F);
        Links links{offset.x * step, offset.y * step, Plane(lengths.width, lengths.height)};
        for_each_row(std::max(0, lengths.height - links.dy), [&](int y) {
            const int last = std::min(lengths.width, lengths.width - links.dx);
            for (int x = std::max(0, -links.dx); x < last; ++x) {
                const auto i = static_cast<size_t>(y * lengths.width + x);
                const auto j = static_cast<size_t>((y + links.dy) * lengths.width + x + links.dx);
                if (!(lengths[i] > 0 && lengths[j] > 0)) continue;
                if (!taken.empty() && !(taken[i] != 0 && taken[j] != 0)) continue;
                links.weights[i] = kernel * like_length(lengths[i], lengths[j]);
            }
        });
        all.push_back(std::move(links));
    }
    return all;
}

// All levels of a spread.
class Spread {
  public:
    Spread(const SeenHaze& seen, std::span<const uint8_t> taken, float deviation) : seen_(seen) {
        const std::vector<float> strengths = spread_levels(deviation * deviation);
        links_.reserve(strengths.size());  // exchanges point to them
        for (size_t level = 0; level < strengths.size(); ++level) {
            links_.push_back(link_legs(seen, taken, level, strengths[level]));
            exchanges_.emplace_back(links_.back());
        }
    }

    // Adds the spread glow to `sum` and empties `glow`.
    void move(Plane& glow, Plane& sum) const {
        const auto size = glow.size();
        if (std::all_of(glow.values.begin(), glow.values.end(), [](float v) { return v == 0; })) {
            return;
        }
        const Plane& share = seen_.share;
        Plane source = make_plane(
            glow.width, glow.height, [&](size_t i) { return glow[i] / share[i]; });
        for (const Exchange& exchange : exchanges_) source = exchange.apply(share, source);
        for (size_t i = 0; i < size; ++i) sum[i] += source[i] * share[i];
        std::fill(glow.values.begin(), glow.values.end(), 0.0F);
    }

  private:
    const SeenHaze& seen_;
    std::vector<std::vector<Links>> links_;
    std::vector<Exchange> exchanges_;
};

}  // namespace

std::vector<float> spread_levels(float variance) {
    std::vector<float> strengths;
    float unit = 1;  // px²
    for (; variance > 0 && strengths.size() < kMostLevels; unit *= 4) {
        const float part = std::min(0.5F, variance / unit);
        strengths.push_back(part / (2 - 3 * part));
        variance = part < 0.5F ? 0.0F : variance - 0.5F * unit;
    }
    return strengths;
}

HazeGlow::HazeGlow(SeenHaze seen, int groups) : seen_(std::move(seen)) {
    const Plane empty(seen_.length.width, seen_.length.height);
    for (auto& kind : kinds_) kind.assign(static_cast<size_t>(groups), {empty, empty, empty});
}

void HazeGlow::put_on(Film& film, const GlowSpread& spread, std::span<const uint8_t> taken) {
    const int width = seen_.length.width;
    const int height = seen_.length.height;
    const std::array<Spread, 2> spreads = {Spread(seen_, taken, spread.near),
                                           Spread(seen_, taken, spread.far)};
    for (size_t g = 0; g < kinds_[0].size(); ++g) {
        std::array<Plane, 3> sums;
        for (size_t c = 0; c < 3; ++c) {
            sums[c] = Plane(width, height);
            for (const Kind kind : {kNear, kFar}) spreads[kind].move(kinds_[kind][g][c], sums[c]);
        }
        for_each_row(height, [&](int y) {
            for (int x = 0; x < width; ++x) {
                const auto i = static_cast<size_t>(y * width + x);
                film.add_alone(x, y, static_cast<int>(g), Xyz(sums[0][i], sums[1][i], sums[2][i]));
            }
        });
    }
}

}  // namespace dapple
