// Meter readings as a JSON file, and as a table for a terminal.
#pragma once

#include <string>
#include <vector>

#include "develop/run_report.h"
#include "judge/judge_meters.h"
#include "scene/scene.h"

namespace dapple {

std::string meters_json_text(const std::vector<MeterJudgement>& meters,
                             const Scene& scene,
                             const RunReport& report);

// One line for each meter, and below it one for each fixture that lights it.
// `passes`: behind the readings.
std::string meters_table_text(const std::vector<MeterJudgement>& meters,
                              const Scene& scene,
                              int passes);

}  // namespace dapple
