// Whose results are in a folder: results keep the path of the set file that made them, so that
// another set of the same name does not overwrite them.
#pragma once

#include <string>

namespace dapple {

// The set file's path without links and relative parts.
std::string absolute_set(const std::string& set_path);

// Throws FileError if `json_path` is a result that another set file has made, unless that file is
// gone, as after its folder was moved. `set` is what absolute_set returns; "" is not known.
void check_same_set(const std::string& json_path, const std::string& set);

}  // namespace dapple
