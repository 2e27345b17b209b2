// The measures of a night's variants, found by name in their statistics files.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "judge/measure.h"
#include "night/night_files.h"

namespace dapple {

// "REGION.measure", "METER.measure", "frame.measure", a ratio such as "figure.key_to_fill" or
// "meters.lit_to_shadow", or "figure, lit side.measure", with its standard error where the file has
// one. Throws FileError, at `place`, if there is no such region, meter or measure at all.
Measure measure_in(const nlohmann::json& stats, const std::string& measure, const Place& place);

// The same; what is not there at all is not known.
Measure usual_measure_in(const nlohmann::json& stats, const std::string& measure);

// What a variants file may rank by.
std::vector<std::string> measures_of_regions();
std::vector<std::string> measures_of_meters();
std::vector<std::string> measures_of_frame();
std::vector<std::string> measures_of_ratios();
// "figure, lit side" and "figure, shadow side".
std::vector<std::string> sides_of_figure();

// First those that the variants are ranked by, then the usual ones of each meter, each region and
// the frame.
std::vector<std::string> night_measures(const NightPlan& plan,
                                        const std::vector<NightVariantState>& states);

}  // namespace dapple
