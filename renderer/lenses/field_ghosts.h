// The part of the veiling glare index that a lens's own ghosts make: the ghosts of an endless
// bright field, over its image.
#pragma once

#include "lenses/hood.h"

namespace dapple {

// Mean ghost light over the image circle (the picture's diagonal), over the mean image light there,
// at 550 nm.
double ghosts_of_bright_field(const Camera& camera, const RealLens& lens, const Hood& hood);

}  // namespace dapple
