#include "materials/texture_lookup.h"

#include <array>
#include <cmath>

namespace dapple {

namespace {

// IEC 61966-2-1.
std::array<float, 256> make_srgb_decoding() {
    std::array<float, 256> table{};
    for (size_t i = 0; i < table.size(); ++i) {
        const double x = static_cast<double>(i) / 255;
        table[i] =
            static_cast<float>(x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4));
    }
    return table;
}

float decode(uint8_t byte, bool srgb) {
    static const std::array<float, 256> kSrgb = make_srgb_decoding();
    return srgb ? kSrgb[byte] : static_cast<float>(byte) / 255.0F;
}

int wrapped(int i, int size) {
    const int r = i % size;
    return r < 0 ? r + size : r;
}

Rgb texel(const Texture& t, int x, int y) {
    const auto first = (static_cast<size_t>(wrapped(y, t.height)) * static_cast<size_t>(t.width) +
                        static_cast<size_t>(wrapped(x, t.width))) *
                       static_cast<size_t>(t.channels);
    if (t.channels < 3) return Rgb(decode(t.texels[first], t.srgb));
    return Rgb(decode(t.texels[first], t.srgb),
               decode(t.texels[first + 1], t.srgb),
               decode(t.texels[first + 2], t.srgb));
}

}  // namespace

Rgb texture_colour(const Texture& texture, const Vec2& uv) {
    // Only the position within one repeat matters. Removing the rest first keeps precision.
    const float x = (uv.x - std::floor(uv.x)) * static_cast<float>(texture.width) - 0.5F;
    const float y = (1.0F - (uv.y - std::floor(uv.y))) * static_cast<float>(texture.height) - 0.5F;
    const float x0 = std::floor(x);
    const float y0 = std::floor(y);
    const int ix = static_cast<int>(x0);
    const int iy = static_cast<int>(y0);
    const Rgb top = glm::mix(texel(texture, ix, iy), texel(texture, ix + 1, iy), x - x0);
    const Rgb bottom = glm::mix(texel(texture, ix, iy + 1), texel(texture, ix + 1, iy + 1), x - x0);
    return glm::mix(top, bottom, y - y0);
}

float texture_value(const Texture& texture, const Vec2& uv) {
    const Rgb c = texture_colour(texture, uv);
    return (c.x + c.y + c.z) / 3.0F;
}

}  // namespace dapple
