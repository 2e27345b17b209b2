// Two things of one kind with one name: messages, changes by name and lists cannot tell them apart.
#pragma once

#include "plausible/doubt.h"
#include "set/set_description.h"

namespace dapple {

// Of what may have the same name without being refused: glass, boards and figures.
Doubts find_twin_names(const SetDescription& set);

}  // namespace dapple
