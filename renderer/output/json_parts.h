// Parts that the JSON files share. Private to this folder.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "develop/run_report.h"
#include "judge/judge_meters.h"

namespace dapple {

// A number; null if it is not finite, because JSON has no infinity and no NaN.
nlohmann::ordered_json json_number(double value);
// The same; null also if there is no value.
nlohmann::ordered_json json_number(const std::optional<double>& value);

// Adds the report's fields to `file`, all but the number of threads.
void add_run(nlohmann::ordered_json& file, const RunReport& run);

nlohmann::ordered_json meters_json(const std::vector<MeterJudgement>& meters);

// The text of a whole file. Bytes of the user's names that are not UTF-8 are replaced.
std::string json_text(const nlohmann::ordered_json& file);

}  // namespace dapple
