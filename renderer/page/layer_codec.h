// A layer of light as a few bytes for the page. Each channel's value v becomes a whole number,
//   q = ± round(steps · ((|v|/full + toe)^p - toe^p)),  p = 1/2.4, toe = 4e-4 (E176)
// The steps follow the picture's code values (E157), but are a third as wide near black, where a
// colour outside Rec.709 is moved as a whole. `full` is the exposure to which the page can turn
// white up, so the error is at most half a step at any dimmer: a sixth of a code value for 800
// steps. From red and blue a share of green is taken off, the same for the whole layer. Each number
// is predicted from its three neighbours (Weinberger et al. 2000, the median predictor of LOCO-I).
// What is left is packed by zlib.
//
// Bytes before packing: for green, red and blue the low bytes of all pixels, then the high ones, of
// the remainder r as 2r for r >= 0 and -2r - 1 for r < 0.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "math/vec.h"

namespace dapple {

inline constexpr double kPower = 1 / 2.4;
inline constexpr double kToe = 4e-4;

struct LayerCode {
    double full = 1;     // exposure units
    double steps = 800;  // from black to white
};

struct EncodedLayer {
    std::vector<uint8_t> bytes;
    int red = 0, blue = 0;  // the share of green that is taken off, 256ths
};

EncodedLayer encode_layer(std::span<const Rgb> light, int width, const LayerCode& code);

}  // namespace dapple
