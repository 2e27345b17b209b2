// Reads a texture at a point: bilinear between texel centres, repeated, v upwards, sRGB decoded
// before mixing. Colours are linear Rec.709.
#pragma once

#include "scene/scene.h"

namespace dapple {

Rgb texture_colour(const Texture& texture, const Vec2& uv);
float texture_value(const Texture& texture, const Vec2& uv);  // mean of the channels

}  // namespace dapple
