// Finds the pictures of a model's materials on disk.
#pragma once

#include <vector>

#include "base/problems.h"
#include "set/models/model_description.h"

namespace dapple {

// Replaces the pictures' names by paths. Each name is relative to the folder of the file that names
// it. A picture that is not there is removed; for a material that is used, a note says so once for
// each picture, and a surface without its colours becomes a mid grey.
void find_pictures(ModelDescription& model, Problems& problems);

}  // namespace dapple
