// Finds the file on disk that a name in an OBJ or MTL file means.
//
// Names are relative to the folder of the file that contains them. A backslash separates folders
// too, and quotes round a name are removed. Models from other machines often contain absolute paths
// of that machine, or differ in upper and lower case: then a file of that name beside the model is
// used.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dapple {

// Returns the path of the file, or "" if there is none.
std::string find_named_file(const std::string& folder, std::string_view name);

// The first path at which the file is looked for, for messages.
std::string named_path(const std::string& folder, std::string_view name);

// Splits a line into file names, as written. Blanks separate names, but a name may also contain
// blanks: the longest run of words that is a file on disk is one name. Words that belong to no file
// form one name, up to the next word that ends in `ending`.
std::vector<std::string_view> split_file_names(const std::string& folder,
                                               std::string_view line,
                                               std::string_view ending);

// The folder of a file, "." if the path has none.
std::string folder_of(const std::string& path);

}  // namespace dapple
