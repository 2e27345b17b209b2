// A lens of glass that cannot do what the camera asks of it.
#pragma once

#include "plausible/doubt.h"
#include "plausible/staged_set.h"

namespace dapple {

Doubts find_lens_doubts(const StagedSet& set);

}  // namespace dapple
