// The films that a command line names: EXRs, and folders that hold them.
#pragma once

#include <string>
#include <vector>

namespace dapple {

// The EXR itself, or the one in a folder. Throws FileError for a folder with no EXR or with
// several.
std::string find_film(const std::string& path);

// All films of the paths: EXRs, the EXRs in a folder, or, if it has none, those in its folders.
// Sorted within each folder. Throws FileError for a folder without films.
std::vector<std::string> find_films(const std::vector<std::string>& paths);

// A name for each film that no other one has: its stem; for films of the same stem that of their
// folder; else with a number.
std::vector<std::string> distinct_names(const std::vector<std::string>& films);

// The file's name without folder and ".exr".
std::string film_stem(const std::string& path);

}  // namespace dapple
