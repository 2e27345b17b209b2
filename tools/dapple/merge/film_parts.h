// The parts of one film: files of kept passes that hold different passes of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "film/checkpoint.h"

namespace dapple {

struct FilmPart {
    std::string path;
    uint64_t fingerprint = 0;
    PassRanges passes;
    uint64_t checksum = 0;
};

struct MergedFilm {
    std::optional<Checkpoint> film;     // nothing: no part could be read
    std::vector<std::string> left_out;  // one line each: damaged, or the same passes twice
};

// Reads the beginning of a file. Nothing if it is missing, or damaged there, which is added to
// `left_out`. Throws FileError if another version of the program wrote it.
std::optional<FilmPart> read_film_part(const std::string& path, std::vector<std::string>& left_out);

// Adds the parts. A part whose passes are all in another one is counted once. The result does not
// depend on the order of the parts. Throws FileError if parts are of different films, or if two
// have only some passes in common.
MergedFilm merge_parts(std::vector<FilmPart> parts);

// The same, with what the file at `path` already holds. The file is left out if all its passes are
// in the parts, as after an earlier merge.
MergedFilm merge_parts_into(std::vector<FilmPart> parts, const std::string& path);

}  // namespace dapple
