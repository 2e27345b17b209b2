// What a search leaves in its folder: search.json, from which it goes on and with which a place is
// written into the set file, and tries.csv, a table of all tries.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "search/run_search.h"

namespace dapple {

// A hash of all that decides what the tries measure.
uint64_t fingerprint_of(const SearchQuestion& question);

// Indices of tries, the best first; nothing: the set as it is.
using SearchPlaces = std::vector<std::optional<size_t>>;

void write_search(const std::string& folder,
                  const SearchQuestion& question,
                  const std::vector<SearchTry>& tries,
                  const SearchPlaces& places);

// The tries of an earlier run; none if there was none. Throws FileError if they are those of
// another search.
std::vector<SearchTry> read_tries(const std::string& folder, const SearchQuestion& question);

// The changes of place `number`, from 1, of a finished search. Throws FileError.
std::vector<SetChange> read_place(const std::string& folder, int number);

}  // namespace dapple
