// What `dapple sheet` writes for paper and for the client: a mood frame of each film as PNG, JPEG
// and TIFF, and the contact sheet of all as PDF and PNG.
#pragma once

#include <string>
#include <vector>

namespace dapple {

// `films` are EXRs. Everything is made before the first file gets its name, so that a film that
// cannot be read changes nothing. Returns the paths of the files. Throws FileError.
std::vector<std::string> write_sheet_files(const std::vector<std::string>& films,
                                           const std::string& folder);

}  // namespace dapple
