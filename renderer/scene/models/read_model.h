// Reads the model that a set names: OBJ, PLY or glTF, by the ending of its name.
#pragma once

#include <optional>
#include <string>

#include "base/problems.h"
#include "set/models/model_description.h"
#include "set/set_description.h"

namespace dapple {

// Returns nothing, with a problem, if the model cannot be read or has no faces.
std::optional<ModelDescription> read_model(const Field<std::string>& model,
                                           ModelParts parts,
                                           Problems& problems);

}  // namespace dapple
