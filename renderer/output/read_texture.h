// Pictures for surfaces: PNG, JPEG and whatever else the image library knows, brought to 8 bit
// with one channel (grey) or three. Alpha is dropped, colours under it are kept. Floating-point
// pictures hold linear light; they are sRGB encoded, so that `srgb` is always true here.
#pragma once

#include <string>

#include "scene/scene.h"

namespace dapple {

// Throws FileError with one line for a missing, damaged or unknown file; prints nothing.
Texture read_texture(const std::string& path);

}  // namespace dapple
