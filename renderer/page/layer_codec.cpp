#include "page/layer_codec.h"

#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace dapple {

namespace {

// Remainders of differences fit in 16 bits. With 1000 steps it is 800 times full light.
constexpr int kMostNumber = 16383;

int number_of(float value, const LayerCode& code) {
    const double size = std::abs(static_cast<double>(value) / code.full);
    const double place = std::pow(size + kToe, kPower) - std::pow(kToe, kPower);
    const int whole =
        static_cast<int>(std::lround(std::min<double>(code.steps * place, kMostNumber)));
    return value < 0 ? -whole : whole;
}

// The median of left, above and left + above - above left; 0 outside the frame.
int predict(const std::vector<int>& numbers, size_t i, size_t width) {
    const bool has_left = i % width != 0;
    const bool has_above = i >= width;
    const int left = has_left ? numbers[i - 1] : 0;
    const int above = has_above ? numbers[i - width] : 0;
    if (!has_left) return above;
    if (!has_above) return left;
    const int corner = numbers[i - width - 1];
    return std::clamp(left + above - corner, std::min(left, above), std::max(left, above));
}

void add_plane(const std::vector<int>& numbers, size_t width, std::vector<uint8_t>& bytes) {
    const size_t begin = bytes.size();
    bytes.resize(begin + 2 * numbers.size());
    for (size_t i = 0; i < numbers.size(); ++i) {
        const int rest = numbers[i] - predict(numbers, i, width);
        const auto folded = static_cast<unsigned>(rest >= 0 ? 2 * rest : -2 * rest - 1);
        bytes[begin + i] = static_cast<uint8_t>(folded & 0xFFU);
        bytes[begin + numbers.size() + i] = static_cast<uint8_t>(folded >> 8U);
    }
}

// The multiple of green that is nearest to another channel, in 256ths.
constexpr int kShareBits = 8;
int share_of_green(const std::vector<int>& channel, const std::vector<int>& green) {
    double products = 0;
    double squares = 0;
    for (size_t i = 0; i < green.size(); ++i) {
        products += static_cast<double>(channel[i]) * green[i];
        squares += static_cast<double>(green[i]) * green[i];
    }
    const double share = squares > 0 ? products / squares : 0;
    return static_cast<int>(std::lround(std::clamp(share, 0.0, 1.0) * (1 << kShareBits)));
}

std::vector<uint8_t> pack(const std::vector<uint8_t>& bytes) {
    uLongf size = compressBound(static_cast<uLong>(bytes.size()));
    std::vector<uint8_t> packed(size);
    const int error =
        compress2(packed.data(), &size, bytes.data(), static_cast<uLong>(bytes.size()), 6);
    if (error != Z_OK) throw std::runtime_error("zlib cannot pack a layer");
    packed.resize(size);
    return packed;
}

}  // namespace

EncodedLayer encode_layer(std::span<const Rgb> light, int width, const LayerCode& code) {
    const auto columns = static_cast<size_t>(width);
    std::vector<int> green(light.size());
    for (size_t i = 0; i < light.size(); ++i) green[i] = number_of(light[i].g, code);
    EncodedLayer layer;
    std::vector<uint8_t> bytes;
    add_plane(green, columns, bytes);
    for (const int channel : {0, 2}) {
        std::vector<int> numbers(light.size());
        for (size_t i = 0; i < light.size(); ++i) numbers[i] = number_of(light[i][channel], code);
        const int share = share_of_green(numbers, green);
        for (size_t i = 0; i < light.size(); ++i) numbers[i] -= (share * green[i]) >> kShareBits;
        add_plane(numbers, columns, bytes);
        (channel == 0 ? layer.red : layer.blue) = share;
    }
    layer.bytes = pack(bytes);
    return layer;
}

}  // namespace dapple
