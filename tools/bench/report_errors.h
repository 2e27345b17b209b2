// Errors of runs and of their references, as lines to read and as JSON.
#pragma once

#include <cstdio>
#include <nlohmann/json.hpp>
#include <vector>

#include "errors.h"

namespace dapple {

// One line for each region, then the heading of print_run's table.
void print_references(std::FILE* to, const Scene& scene, const std::vector<References>& references);
nlohmann::json references_json(const Scene& scene, const std::vector<References>& references);

// One line for each region.
void print_run(std::FILE* to,
               const Mode& mode,
               const Run& run,
               const std::vector<RegionError>& errors);
nlohmann::json run_json(const Mode& mode, const Run& run, const std::vector<RegionError>& errors);

}  // namespace dapple
