// The manual page of the program, in the language of man(7).
#pragma once

#include <string>
#include <vector>

#include "shell/command_words.h"

namespace dapple {

std::string manual_page(const std::vector<CommandWords>& commands);

}  // namespace dapple
