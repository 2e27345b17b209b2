// Reads a film back from an EXR that write_exr has written.
#pragma once

#include <string>

#include "develop/film_record.h"

namespace dapple {

// Throws FileError with one line for a file that is missing, not ours, of another version,
// truncated or damaged; prints nothing.
FilmRecord read_exr(const std::string& path);

// The same without the pixels, in a moment: title, camera, fixtures, run. Pixels that are truncated
// or damaged are not found.
FilmRecord read_exr_without_pixels(const std::string& path);

}  // namespace dapple
