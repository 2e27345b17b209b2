// Writes other values into the text of a set file, by address. Everything else stays as it is,
// comments and blanks too.
//
//   camera.iso                      a key of a table
//   fixture.moon.cct_k              a key of the [[fixture]] of that name; names may have dots
//   glass.#2.turn_deg               a key of the second [[glass]], which may have no name
//   fixture.key.gel.shift_mired     a key within a key
//   glass.ribbed jar                the whole table: true leaves it, false takes it out, and a
//                                   table replaces it, but for its name, its place (kStaysInPlace)
//                                   and those of its keys that are changed too
//   flag.flag 1                     a table without a name has its usual one
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct SetChange {
    std::string address;
    std::string value;  // as TOML writes it: 0.5, "green", [1.0, 2.0], { kit = "jar-ribbed" }
    Place place;        // where the change was asked for, for messages
};

// Returns the changed text. What is wrong with an address or a value goes to `problems`; the result
// is then not to be used. `text` must be valid TOML. What the values mean is not checked:
// read_set_text() does that.
std::string change_set(const std::string& text,
                       const std::vector<SetChange>& changes,
                       Problems& problems);

}  // namespace dapple
