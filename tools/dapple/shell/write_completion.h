// Completion of commands, options and files for three shells.
#pragma once

#include <string>
#include <vector>

#include "shell/command_words.h"

namespace dapple {

std::string bash_completion(const std::vector<CommandWords>& commands);
std::string zsh_completion(const std::vector<CommandWords>& commands);
std::string fish_completion(const std::vector<CommandWords>& commands);

}  // namespace dapple
