// What of a film counts for the texture that a search wants of a glass: the light through it.
#pragma once

#include <string>

#include "develop/film_record.h"
#include "load_set.h"

namespace dapple {

// Marks the pixels of the film's regions that are lit through the glass of that address, such as
// "glass.jar" (FilmRecord::lit_through). Marks nothing for a thing that is no glass.
void count_lit_through(const LoadedSet& set,
                       const std::string& address,
                       const SeenPoints& seen,
                       FilmRecord& film);

}  // namespace dapple
