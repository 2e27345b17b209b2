#include "render/spread_light.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dapple {

namespace {

constexpr size_t kMostSpreadLevels = 6;

std::vector<Links> link_neighbours(const Plane& amounts,
                                   size_t level,
                                   float strength,
                                   const LightSpread::Likeness& likeness) {
    const int step = 1 << level;
    const int width = amounts.width;
    std::vector<Links> all;
    for (const auto& [dx, dy] : {std::pair{1, 0}, {-1, 1}, {0, 1}, {1, 1}}) {
        const float kernel = strength * (dx == 0 || dy == 0 ? 0.5F : 0.25F);
        Links links{dx * step, dy * step, Plane(width, amounts.height)};
        for_each_row(std::max(0, amounts.height - links.dy), [&](int y) {
            const int last = std::min(width, width - links.dx);
            for (int x = std::max(0, -links.dx); x < last; ++x) {
                const auto i = static_cast<size_t>(y * width + x);
                const auto j = static_cast<size_t>((y + links.dy) * width + x + links.dx);
                links.weights[i] = kernel * likeness(i, j);
            }
        });
        all.push_back(std::move(links));
    }
    return all;
}

}  // namespace

std::vector<float> spread_levels(float variance) {
    std::vector<float> strengths;
    float unit = 1;  // px²
    for (; variance > 0 && strengths.size() < kMostSpreadLevels; unit *= 4) {
        const float part = std::min(0.5F, variance / unit);
        strengths.push_back(part / (2 - 3 * part));
        variance = part < 0.5F ? 0.0F : variance - 0.5F * unit;
    }
    return strengths;
}

LightSpread::LightSpread(const Plane& amounts, float deviation, const Likeness& likeness)
    : amounts_(amounts) {
    const std::vector<float> strengths = spread_levels(deviation * deviation);
    links_.reserve(strengths.size());  // exchanges point to its elements
    for (size_t level = 0; level < strengths.size(); ++level) {
        links_.push_back(link_neighbours(amounts, level, strengths[level], likeness));
        exchanges_.emplace_back(links_.back());
    }
}

void LightSpread::move(Plane& light, Plane& sum) const {
    const auto is_dark = [](float v) { return v == 0.0F; };
    if (std::all_of(light.values.begin(), light.values.end(), is_dark)) return;
    Plane spread =
        make_plane(light.width, light.height, [&](size_t i) { return light[i] / amounts_[i]; });
    // From the coarsest: where pixels are not alike, a fine level last closes the gaps.
    for (auto exchange = exchanges_.rbegin(); exchange != exchanges_.rend(); ++exchange) {
        spread = exchange->apply(amounts_, spread);
    }
    for (size_t i = 0; i < light.size(); ++i) sum[i] += spread[i] * amounts_[i];
    std::fill(light.values.begin(), light.values.end(), 0.0F);
}

}  // namespace dapple
