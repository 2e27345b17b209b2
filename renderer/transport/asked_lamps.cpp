#include "transport/asked_lamps.h"

#include <algorithm>
#include <functional>

namespace dapple {

namespace {

// Lamps and cloths asked by a vertex, in expectation.
constexpr float kAskedFirst = 3;
constexpr float kAskedFirstPerFixture = 0.06F;
constexpr float kAskedLater = 1.0F;
// A cloth costs two rays and more, so it must bring more light for the same probability.
constexpr float kSheetShare = 0.6F;
constexpr float kLeast = 0.06F;

// c with Σ min(1, light/c) = most; 0 if all can be 1. `sorted`: from the brightest on.
float scale_of(const std::vector<float>& sorted, float most) {
    float rest = 0;
    for (const float light : sorted) rest += light;
    float sure = 0;
    for (const float light : sorted) {
        // The brighter ones have probability 1; the others share what is left.
        if (sure >= most) return light;
        const float c = rest / (most - sure);
        if (light <= c) return c;
        rest -= light;
        ++sure;
    }
    return 0;
}

}  // namespace

void set_ask_probabilities(std::span<const float> light, float most, std::span<float> probability) {
    std::vector<float> sorted(light.begin(), light.end());
    std::sort(sorted.begin(), sorted.end(), std::greater<>());
    const float c = scale_of(sorted, most);
    for (size_t i = 0; i < light.size(); ++i) {
        const float n = light[i] <= 0 ? 0.0F : (c > 0 ? light[i] / c : 1.0F);
        probability[i] = std::clamp(n, kLeast, 1.0F);
    }
}

AskedLamps::AskedLamps(SurfaceCells cells, int fixtures)
    : cells_(std::move(cells)),
      fixtures_(fixtures),
      rows_(static_cast<size_t>(cells_.size()) * 4 * static_cast<size_t>(fixtures), 1.0F) {}

void AskedLamps::set(int part, const AskedLight& light) {
    const auto count = static_cast<size_t>(fixtures_);
    std::vector<float> all = light.lamps;
    for (const float sheet : light.sheets) all.push_back(kSheetShare * sheet);
    const std::span<float> row(&rows_[static_cast<size_t>(part) * 4 * count], 4 * count);
    const float first = kAskedFirst + kAskedFirstPerFixture * static_cast<float>(fixtures_);
    set_ask_probabilities(all, first, row.first(2 * count));
    set_ask_probabilities(all, kAskedLater, row.last(2 * count));
}

void AskedLamps::ask_always(size_t fixture) {
    for (size_t i = fixture; i < rows_.size(); i += static_cast<size_t>(fixtures_)) rows_[i] = 1;
}

}  // namespace dapple
