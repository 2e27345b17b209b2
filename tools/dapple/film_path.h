// The film that a command line names: an EXR, or a folder that holds exactly one.
#pragma once

#include <string>

namespace dapple {

// Throws FileError for a folder with no EXR or with several.
std::string find_film(const std::string& path);

// The file's name without folder and ".exr".
std::string film_stem(const std::string& path);

}  // namespace dapple
