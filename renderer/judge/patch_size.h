// The size of patches of light (E167). Private to this folder.
#pragma once

#include "judge/log_remainder.h"
#include "judge/measure.h"

namespace dapple {

// In pixels of the field. Not known if the pattern does not end within `reach` pixels.
Measure measure_patch_size(const LogRemainder& field, int reach);

}  // namespace dapple
