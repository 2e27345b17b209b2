// Writes other dimmers into the text of a set file. Everything else stays as it is, comments and
// blanks too.
#pragma once

#include <map>
#include <string>

#include "base/problems.h"

namespace dapple {

// `dimmers`: by the fixture's name, each for one [[fixture]] of the text. A fixture without the key
// gets it below its name. Reports a fixture that the text does not have; the result is then not to
// be used. `path` is for messages.
std::string change_dimmers(const std::string& path,
                           const std::string& text,
                           const std::map<std::string, double>& dimmers,
                           Problems& problems);

}  // namespace dapple
