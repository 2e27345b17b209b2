// Whether a JPEG ends before its end: the image library shows the missing part as grey and says
// nothing.
#pragma once

#include <string_view>

namespace dapple {

// Walks the markers of ITU-T T.81 (1992), B.1, up to the end of the image. False for bytes that are
// no JPEG.
bool is_cut_off_jpeg(std::string_view bytes);

}  // namespace dapple
