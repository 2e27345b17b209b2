// A layer of light as a few bytes for the page. Each channel's value v becomes a whole number,
//   q = ± round(steps · srgb(|v|/full))                                                      (E215)
// with the code values of the picture (E108), continued above 1. `full` is the exposure to which
// the page can turn white up, so the error is at most half a step of the picture's code values at
// any dimmer: a quarter of one for 510 steps. Green is kept as it is, red and blue as differences
// from green, which are smooth where only the surface changes. Each number is predicted from its
// three neighbours (Weinberger et al. 2000, the median predictor of LOCO-I). What is left is packed
// by zlib.
//
// Bytes before packing: for G, R - G, B - G the low bytes of all pixels, then the high ones, of the
// remainder r as 2r for r >= 0 and -2r - 1 for r < 0.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "math/vec.h"

namespace dapple {

struct LayerCode {
    double full = 1;     // exposure units
    double steps = 510;  // from black to white
};

std::vector<uint8_t> encode_layer(std::span<const Rgb> light, int width, const LayerCode& code);

}  // namespace dapple
