// Text for HTML files. Private to this folder.
#pragma once

#include <string>

namespace dapple {

// Puts `with` in place of every `mark`.
void replace_mark(std::string& text, const std::string& mark, const std::string& with);

std::string in_html(const std::string& text);

// JSON that is safe inside a script element: it has no "<" any more.
std::string in_script(std::string json);

}  // namespace dapple
