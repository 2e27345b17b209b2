// What a night leaves in its folder beside the variants' own folders: overnight.json and table.csv.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "night/night_plan.h"
#include "variants/night_schedule.h"

namespace dapple {

// How far the night is with each variant, in the plan's order.
struct NightVariantState {
    NightState state;
    std::string failure;                          // why it failed; empty: it did not
    nlohmann::json stats;                         // its statistics file; null: there is none yet
    std::vector<std::optional<double>> measures;  // by wish; nothing: not known
    std::optional<double> score;                  // the less the better
    int rank = 0;                                 // from 1; 0: not ranked
};

// Finds "REGION.measure", "METER.measure" or "frame.measure" in a statistics file; nothing if it is
// not known. Throws FileError if there is no such region, meter or measure at all.
std::optional<double> measure_in(const nlohmann::json& stats, const Wish& wish);

// Fills in measures, scores and ranks.
void rank_variants(const NightPlan& plan, std::vector<NightVariantState>& states);

void write_night_files(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states);

// The passes of each variant by an earlier overnight.json; 0 where there is none. Throws FileError
// if a variant of that name was made from another set.
std::vector<NightState> read_night_states(const std::string& folder, const NightPlan& plan);

// The contact sheet, the best first: sheet.pdf and sheet.png. Nothing if no variant has a film.
void write_night_sheet(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states);

// What overnight.json tells, for --status.
std::string status_text(const std::string& folder);

}  // namespace dapple
