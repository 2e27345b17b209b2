// Everything that can hardly be meant about a set: sets that cannot be built, and pictures that
// show nothing. The set is valid, and it can be rendered as it is.
//
// Each doubt names the key, what is wrong with figures, and what to try. A false alarm is worse
// than a mistake that is not told: what photographers do on purpose is left out, and what is told
// by its look is marked as a guess.
#pragma once

#include "plausible/staged_set.h"

namespace dapple {

// In the order of the set file.
Doubts find_doubts(const StagedSet& set);

// "set.toml:14:1: glass "jar": position: cuts 4 cm into ..."; a guess ends with "(a guess)".
std::string to_string(const Doubt& doubt);

}  // namespace dapple
