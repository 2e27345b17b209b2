// What a night leaves in its folder beside the variants' own folders: overnight.json and table.csv.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "judge/measure.h"
#include "night/night_plan.h"
#include "variants/night_schedule.h"
#include "variants/score_variants.h"

namespace dapple {

// How far the night is with each variant, in the plan's order.
struct NightVariantState {
    NightState state;
    std::string failure;            // why it failed; empty: it did not
    nlohmann::json stats;           // its statistics file; null: there is none yet
    std::vector<Measure> measures;  // by night_measures()
    Measure score;                  // the less the better
    ScoreRank standing;             // among all variants
};

// Fills in measures, scores and standings.
void rank_variants(const NightPlan& plan, std::vector<NightVariantState>& states);

// overnight.json and table.csv, of ranked variants.
void write_night_files(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states);

// The passes of each variant by an earlier overnight.json; 0 where there is none. Throws FileError
// if a variant of that name was made from another set.
std::vector<NightState> read_night_states(const std::string& folder, const NightPlan& plan);

// What overnight.json tells, for --status.
std::string status_text(const std::string& folder);

}  // namespace dapple
