// The pattern that is cut into made glass: surface, ribs and their sizes.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// The object's form and size must be there already. `ribs` without `surface` means ribbed.
void build_glass_surface(const GlassDescription& description,
                         GlassObject& glass,
                         Problems& problems);

// Adds a problem for each key of a pattern or of bubbles that is written.
void refuse_surface(const GlassDescription& description,
                    const std::string& why,
                    Problems& problems);

}  // namespace dapple
