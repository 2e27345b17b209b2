#include "page/layer_codec.h"

#include <doctest/doctest.h>
#include <zlib.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "spectrum/white_balance.h"

using namespace dapple;

namespace {

constexpr int kWidth = 23;

// What the page's codec.js computes.
std::vector<int> read_plane(const std::vector<uint8_t>& bytes, size_t plane, size_t count) {
    std::vector<int> numbers(count);
    for (size_t i = 0; i < count; ++i) {
        const int folded = bytes[2 * plane * count + i] | bytes[(2 * plane + 1) * count + i] << 8;
        const int rest = (folded & 1) != 0 ? -((folded + 1) >> 1) : folded >> 1;
        int guess = 0;
        if (i % kWidth != 0 && i >= kWidth) {
            const int left = numbers[i - 1];
            const int above = numbers[i - kWidth];
            guess = std::clamp(left + above - numbers[i - kWidth - 1],
                               std::min(left, above),
                               std::max(left, above));
        } else if (i % kWidth != 0) {
            guess = numbers[i - 1];
        } else if (i >= kWidth) {
            guess = numbers[i - kWidth];
        }
        numbers[i] = guess + rest;
    }
    return numbers;
}

std::vector<Rgb> decode(const EncodedLayer& layer, size_t count, const LayerCode& code) {
    std::vector<uint8_t> bytes(6 * count);
    uLongf size = bytes.size();
    REQUIRE(uncompress(bytes.data(), &size, layer.bytes.data(), layer.bytes.size()) == Z_OK);
    REQUIRE(size == 6 * count);
    const std::vector<int> green = read_plane(bytes, 0, count);
    std::vector<int> red = read_plane(bytes, 1, count);
    std::vector<int> blue = read_plane(bytes, 2, count);
    std::vector<Rgb> light;
    const auto value = [&](int q) {
        const double root = std::abs(q) / code.steps + std::pow(kToe, kPower);
        return static_cast<float>(
            std::copysign(code.full * (std::pow(root, 1 / kPower) - kToe), static_cast<double>(q)));
    };
    for (size_t i = 0; i < count; ++i) {
        light.emplace_back(value(red[i] + ((layer.red * green[i]) >> 8)),
                           value(green[i]),
                           value(blue[i] + ((layer.blue * green[i]) >> 8)));
    }
    return light;
}

// Light from black to far above white, some of it negative, with noise.
std::vector<Rgb> test_light() {
    std::vector<Rgb> light;
    for (uint64_t i = 0; i < kWidth * 31; ++i) {
        const auto u = [&](uint64_t k) {
            return static_cast<float>(static_cast<double>(mix_bits(i, k) >> 40U) * 0x1p-24);
        };
        const float y = std::exp2(-14 + 18 * u(0));
        light.emplace_back(y * (1 + 0.1F * u(1)), y, y * (0.6F - u(2)));
    }
    light[5] = Rgb(0);
    light[6] = Rgb(50, 80, -30);
    return light;
}

}  // namespace

TEST_CASE("light comes back within half a step of the picture's code values") {
    const std::vector<Rgb> light = test_light();
    for (const LayerCode& code : {LayerCode{1, 800}, LayerCode{0.1, 350}}) {
        const std::vector<Rgb> again =
            decode(encode_layer(light, kWidth, code), light.size(), code);
        for (size_t i = 0; i < light.size(); ++i) {
            for (int c = 0; c < 3; ++c) {
                const double was = light[i][c] / code.full;
                const double is = again[i][c] / code.full;
                // A step is at most 1.14 of the picture's, where its curve has a corner
                // (0.0031): half of that, and rounding.
                const double off = std::abs(srgb_encode(static_cast<float>(was)) -
                                            srgb_encode(static_cast<float>(is)));
                CHECK(off <= 0.57 / code.steps + 1e-6 * std::abs(was));
            }
        }
    }
}

TEST_CASE("even light takes next to nothing") {
    const std::vector<Rgb> light(kWidth * 400, Rgb(0.4F, 0.3F, 0.2F));
    CHECK(encode_layer(light, kWidth, {}).bytes.size() < 300);
}
