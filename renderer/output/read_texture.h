// Reads pictures for surfaces: PNG, JPEG and whatever else the image library reads, converted to 8
// bit with one channel (grey) or three. Colours under alpha are kept.
// Floating-point pictures are linear light; they are sRGB encoded, so that `srgb` is always true.
#pragma once

#include "scene/build_scene.h"
#include "scene/scene.h"

namespace dapple {

// Throws FileError with one line for a missing, damaged, unknown or cut off file; prints nothing.
// Its alpha alone is 1 everywhere if the picture has none.
Texture read_texture(const PictureSource& picture);

}  // namespace dapple
