// From a file name in an OBJ or MTL file to a file on disk.
//
// Names are relative to the folder of the file that holds them; backslashes divide folders as well;
// quotes round a name are taken off. Models that move between machines often carry the absolute
// path of another one, or another case: a file of that name beside the model is then taken.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dapple {

// The path of the file, or "" where there is none.
std::string find_named_file(const std::string& folder, std::string_view name);

// Where the file is looked for first, for messages.
std::string named_path(const std::string& folder, std::string_view name);

// The files that a line of names means, each as written: a name may hold blanks, and blanks part
// names. The longest run of words that is a file on disk wins; words that belong to none come as
// one name up to a word that ends in `ending`.
std::vector<std::string_view> part_file_names(const std::string& folder,
                                              std::string_view line,
                                              std::string_view ending);

// The folder of a file, "." where the path has none.
std::string folder_of(const std::string& path);

}  // namespace dapple
