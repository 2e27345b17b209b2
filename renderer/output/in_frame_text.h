// The things in the frame that should not be there, as lines of text and as JSON.
#pragma once

#include <string>

#include "output/write_png.h"
#include "scene/in_frame.h"

namespace dapple {

// One line for each thing, with a line break at its end; "" if there is none.
std::string in_frame_lines(const InFrame& frame);

// A list: name, kind, seen, pixels, share, box_px, touches, move_out.
std::string in_frame_json_text(const InFrame& frame);

// The retouch mask: white where things are, black elsewhere.
Picture mask_picture(const InFrame& frame);

}  // namespace dapple
