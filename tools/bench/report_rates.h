// Speeds and shares of time, as lines to read and as JSON.
#pragma once

#include <cstdio>
#include <nlohmann/json.hpp>

#include "rates.h"

namespace dapple {

void print_rates(std::FILE* to, const Rates& rates);

nlohmann::json to_json(const Rates& rates);

}  // namespace dapple
