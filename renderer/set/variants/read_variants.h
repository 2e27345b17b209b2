// Reads a variants file (TOML).
#pragma once

#include <string>
#include <vector>

#include "set/variants/variants_file.h"

namespace dapple {

// Problems: TOML syntax, unknown keys, wrong types, nothing that varies, ranges without an end.
// Addresses are not compared with the set: choose_variants.h does that. Throws FileError if the
// file cannot be read.
VariantsFile read_variants(const std::string& path, Problems& problems);

// Every key that a variants file may have, of ranges and wishes as "vary.from", "rank.want".
std::vector<std::string> all_variants_keys();

// What a value, as TOML writes it, is called in the name of a variant: text without its quotes,
// the kit entry of a table, "with" and "without" for true and false.
std::string word_for_value(const std::string& value);

}  // namespace dapple
