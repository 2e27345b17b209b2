// A developed picture as an 8-bit sRGB PNG.
#pragma once

#include <string>

#include "develop/develop.h"

namespace dapple {

// `display` comes from develop_display: sRGB encoded, 0 to 1. Throws FileError.
void write_png(const std::string& path, const Picture& display);

enum class PngPacking {
    kUsual,
    kNone,  // a tenth of the time and several times the size
};
// The same file as bytes. Throws StoppedWork if the thread's StopLoops stops it.
std::string png_bytes(const Picture& display, PngPacking packing = PngPacking::kUsual);

}  // namespace dapple
