#include "output/round_layers.h"

#include <OpenImageIO/half.h>

#include <algorithm>
#include <atomic>
#include <cmath>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr float kMostInHalf = 65504;
constexpr int64_t kPixelsAtATime = 16384;

// Whether `test` is true of all values.
template <class Test>
bool all_values(std::span<const Rgb> light, const Test& test) {
    std::atomic<bool> all = true;
    parallel_blocks(
        static_cast<int64_t>(light.size()), kPixelsAtATime, [&](int64_t first, int64_t last) {
            for (auto i = static_cast<size_t>(first); all && i < static_cast<size_t>(last); ++i) {
                if (!test(light[i].x) || !test(light[i].y) || !test(light[i].z)) all = false;
            }
        });
    return all;
}

float rounded_to_half(float value) {
    return half(value);
}

// Returns false, and leaves the light as it is, if it is beyond the range.
bool round_light(std::vector<Rgb>& light) {
    const auto fits = [](float value) { return std::abs(value) <= kMostInHalf; };
    if (!all_values(light, fits)) return false;
    parallel_blocks(
        static_cast<int64_t>(light.size()), kPixelsAtATime, [&](int64_t first, int64_t last) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                for (int c = 0; c < 3; ++c) light[i][c] = rounded_to_half(light[i][c]);
            }
        });
    return true;
}

}  // namespace

std::vector<std::string> round_layers(FilmRecord& record) {
    std::vector<std::string> beyond;
    for (LightLayer& layer : record.layers) {
        const bool is_rounded = round_light(layer.light);
        const bool is_clean_rounded = round_light(layer.clean);
        const bool is_glare_rounded = round_light(layer.glare);
        if (!is_rounded || !is_clean_rounded || !is_glare_rounded) beyond.push_back(layer.name);
    }
    return beyond;
}

bool are_halves(std::span<const Rgb> light) {
    return all_values(light, [](float value) { return rounded_to_half(value) == value; });
}

}  // namespace dapple
