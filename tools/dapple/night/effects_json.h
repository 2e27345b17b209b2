// Which knob moved which measure, as JSON and as sentences.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "night/night_files.h"

namespace dapple {

// Adds `effects`, one for each of the measures, and `cannot_be_told_apart`, sentences.
void add_effects(const NightPlan& plan,
                 const std::vector<NightVariantState>& states,
                 const std::vector<std::string>& measures,
                 nlohmann::ordered_json& all);

// What the sheet says of each measure that the variants are ranked by.
std::vector<std::string> effect_sentences(const NightPlan& plan,
                                          const std::vector<NightVariantState>& states);

}  // namespace dapple
