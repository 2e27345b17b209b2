// A picture as JPEG in memory, for pages that hold their pictures.
#pragma once

#include <string>

#include "develop/develop.h"

namespace dapple {

// `display` comes from develop_display: sRGB encoded, 0 to 1. `quality` from 1 to 100.
std::string jpeg_bytes(const Picture& display, int quality);

}  // namespace dapple
