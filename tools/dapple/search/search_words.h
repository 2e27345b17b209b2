// The words of a search, one piece at a time. Each function reports what is wrong with a piece
// under its option's name.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_outline.h"
#include "set/variants/variants_file.h"
#include "variants/search/search_space.h"

namespace dapple {

// The thing of that name: "jar", or "glass.jar" where several things have the name. Only what has a
// name and a position.
std::optional<OutlineTable> find_thing(const std::vector<OutlineTable>& tables,
                                       const std::string& words,
                                       Problems& problems);

// Where the thing stands as the set says it; nothing if it is not written in numbers.
std::optional<Metres3> position_of(const OutlineTable& thing);

// "back wall.texture=more" of a region, a meter, the frame, a side of the figure, or a surface;
// "key:fill=4". A surface that no region has yet
// gets one, at the end of `set_text`.
std::optional<Wish> read_want(const std::string& words,
                              const Scene& scene,
                              std::string& set_text,
                              Problems& problems);

// Adds what one --vary says to the space: "height=0..0.5", "turn=0..15",
// "distance from lamp=0.3..1", "rib_depth_mm=0.2..1.5".
void add_varied(const std::string& words,
                const Metres3& present,
                const Scene& scene,
                SearchSpace& space,
                Problems& problems);

}  // namespace dapple
