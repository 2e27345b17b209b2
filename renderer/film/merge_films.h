// Adds films of the same frame that hold different passes.
//
// A pass depends on the seed and on its number alone, and all that a film keeps can be added in any
// order (film_state.h). So films of parts of the passes, made anywhere, add up to the bits of a
// film of all of them.
#pragma once

#include "film/checkpoint.h"

namespace dapple {

// Adds `part` to `to`. Returns false, and adds nothing, if both have some pass, or if they are of
// films of another size.
bool add_film(FilmState& to, const FilmState& part);
bool add_checkpoint(Checkpoint& to, const Checkpoint& part);

}  // namespace dapple
