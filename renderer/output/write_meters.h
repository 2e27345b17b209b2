// Meter readings as JSON, and as a table to read.
#pragma once

#include <string>
#include <vector>

#include "develop/judge_meters.h"
#include "output/write_stats.h"
#include "scene/scene.h"

namespace dapple {

std::string meters_text(const std::vector<MeterJudgement>& meters,
                        const Scene& scene,
                        const RenderReport& report);

// Lines for a terminal: a reading each, and below it what each fixture brings.
std::string meters_table(const std::vector<MeterJudgement>& meters, const Scene& scene);

}  // namespace dapple
