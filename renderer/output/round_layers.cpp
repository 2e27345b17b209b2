#include "output/round_layers.h"

#include <OpenImageIO/half.h>

#include <algorithm>
#include <atomic>
#include <bit>
#include <cmath>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr float kMostInHalf = 65504;
constexpr float kLeastNormalHalf = 1.0F / 16384;
constexpr uint32_t kExponentBits = 0x7f800000;
constexpr uint32_t kHalfStep = 10U << 23U;  // as exponents: 11 digits below a power of two
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

// What glare changes of light is not known better than the light that it is added to, and most of
// it takes away a small part of that, noise and all. Digits below the light's own would only make
// the file longer and its packing slower.
float rounded_beside(float glare, float light) {
    const float larger = std::max(std::abs(glare), std::abs(light));
    if (!(larger >= kLeastNormalHalf && larger <= kMostInHalf)) return glare;
    const auto power = std::bit_cast<uint32_t>(larger) & kExponentBits;
    const auto step = std::bit_cast<float>(power - kHalfStep);
    return step * std::nearbyint(glare / step);
}

void round_glare(const std::vector<Rgb>& light, std::vector<Rgb>& glare) {
    parallel_blocks(
        static_cast<int64_t>(glare.size()), kPixelsAtATime, [&](int64_t first, int64_t last) {
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                for (int c = 0; c < 3; ++c) glare[i][c] = rounded_beside(glare[i][c], light[i][c]);
            }
        });
}

}  // namespace

std::vector<std::string> round_layers(FilmRecord& record) {
    std::vector<std::string> beyond;
    for (LightLayer& layer : record.layers) {
        const bool is_rounded = round_light(layer.light);
        const bool is_clean_rounded = round_light(layer.clean);
        round_glare(layer.light, layer.glare);
        const bool is_glare_rounded = round_light(layer.glare);
        if (!is_rounded || !is_clean_rounded || !is_glare_rounded) beyond.push_back(layer.name);
    }
    return beyond;
}

bool are_halves(std::span<const Rgb> light) {
    return all_values(light, [](float value) { return rounded_to_half(value) == value; });
}

}  // namespace dapple
