// The OBJ model that a set names, with what every model must have.
#pragma once

#include <optional>
#include <string>

#include "base/problems.h"
#include "set/obj/obj_description.h"
#include "set/set_description.h"

namespace dapple {

// Nothing, and a problem, where the model cannot be read or has no faces.
std::optional<ObjDescription> read_model(const Field<std::string>& model, Problems& problems);

}  // namespace dapple
