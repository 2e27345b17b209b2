// Sets that begin on the desk, with the questions of `dapple new`.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace dapple {

// "untitled.toml" in the current folder, or the first of "untitled-2.toml" … that is free.
std::string path_of_new_set();
// A small room with a figure and a key.
std::string first_set_text();
// The set that the form's answers make: title, room, distance, lens, figure (its height; null:
// none), seated, walls (their reflectance). Throws std::invalid_argument with a line for the user.
std::string new_set_text(const nlohmann::ordered_json& answers);
// The folder of a set file, from the root.
std::string folder_of_set(const std::string& set);
// The file for a name as a person types it, in `folder`; "": in the folder of `set`. Throws
// std::invalid_argument, also if there is no such folder.
std::string path_for_name(const std::string& set,
                          const std::string& folder,
                          const std::string& name);

}  // namespace dapple
