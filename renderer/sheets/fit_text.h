// Text in a limited number of lines.
#pragma once

#include "sheets/text_box.h"

namespace dapple {

// A text of at most `most_lines` lines of style.wrap. A longer one loses its middle: beginnings and
// ends are what tells long names apart.
TextBox fit_text(const std::string& text, const TextStyle& style, int most_lines);

}  // namespace dapple
