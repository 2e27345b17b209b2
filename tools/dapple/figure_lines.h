// What `dapple check` says about the lay figures of a set: where their faces and their seats are.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "scene/scene.h"

namespace dapple {

// `figure "sitter": seated, 1.70 m tall; face at [0, 1.17, -1.45]; needs a seat 40 cm high with its
// middle at x = 0, z = -1.45`, a line for each figure.
std::string figure_lines(const Scene& scene);

// A list of {name, pose, height_m, face, chest, seat}; seat is null for figures that stand.
nlohmann::json figures_json(const Scene& scene);

}  // namespace dapple
