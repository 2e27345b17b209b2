// What the user is told of a night before it begins, and what keeps it from beginning.
#pragma once

#include <string>

#include "night/night_plan.h"
#include "night/run_night.h"

namespace dapple {

// "8 variants from 4 films; about 120 MB in out/night; …", and how to make it smaller if it is
// large.
std::string night_notice(const NightPlan& plan, const NightOptions& options, const NightEnd& end);

// Told after the first pass of the night, which took `seconds` with all that came before it.
// `seconds_left`: until the night's end; nothing: it has none.
std::string first_pass_notice(const NightPlan& plan,
                              const NightLimits& limits,
                              double seconds,
                              std::optional<double> seconds_left);

// Throws FileError if the night needs more memory than `memory_gb`; 0: any.
void check_memory(const NightPlan& plan, double memory_gb);

// Throws FileError if the disk has no room for what the plan still needs.
void check_room(const NightPlan& plan, const std::string& folder);

}  // namespace dapple
