// Parts of the JSON files; for this folder only.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "develop/judge_meters.h"

namespace dapple {

// JSON has no infinity and no NaN.
nlohmann::ordered_json json_number(double value);
nlohmann::ordered_json json_number(const std::optional<double>& value);

nlohmann::ordered_json meters_json(const std::vector<MeterJudgement>& meters);

}  // namespace dapple
