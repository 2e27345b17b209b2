// Reads pictures for surfaces: PNG, JPEG and whatever else the image library reads, converted to 8
// bit with one channel (grey) or three. Alpha is dropped, and colours under it are kept.
// Floating-point pictures are linear light; they are sRGB encoded, so that `srgb` is always true.
#pragma once

#include <string>

#include "scene/scene.h"

namespace dapple {

// Throws FileError with one line for a missing, damaged or unknown file; prints nothing.
Texture read_texture(const std::string& path);

}  // namespace dapple
