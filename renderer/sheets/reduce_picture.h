// A smaller copy of a developed picture.
#pragma once

#include "develop/develop.h"

namespace dapple {

// At most `most_side` px on its longer side; a smaller picture stays as it is. Each pixel is the
// mean, in linear light, of the area that it covers. `encoded`: sRGB, 0 to 1.
Picture reduce_picture(const Picture& encoded, int most_side);

}  // namespace dapple
