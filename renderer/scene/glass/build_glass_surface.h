// The pattern that is cut into made glass: surface, ribs and what goes with them.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// The size must be known. `ribs` without `surface` means ribbed.
void build_glass_surface(const GlassDescription& description,
                         GlassObject& glass,
                         Problems& problems);

// A problem for each key of a surface that is written.
void refuse_surface(const GlassDescription& description,
                    const std::string& why,
                    Problems& problems);

}  // namespace dapple
