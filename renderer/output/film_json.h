// What an EXR keeps beside its pixels: one JSON text in the attribute dapple:film. Private to this
// folder.
#pragma once

#include <string>

#include "develop/film_record.h"

namespace dapple {

inline constexpr const char* kFilmAttribute = "dapple:film";
inline constexpr int kFilmVersion = 1;

std::string film_json_text(const FilmRecord& record);

// A record without pixels: the lists of its layers and regions are there, their pixels are empty.
// Throws FileError of `path` for a text that is not ours, or of another version.
FilmRecord parse_film_json(const std::string& path, const std::string& text);

}  // namespace dapple
