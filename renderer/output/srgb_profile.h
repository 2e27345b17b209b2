// The ICC profile of sRGB (IEC 61966-2-1), as picture files carry it.
#pragma once

#include <cstdint>
#include <vector>

namespace dapple {

// Throws std::runtime_error if it cannot be made.
std::vector<uint8_t> srgb_profile();

}  // namespace dapple
