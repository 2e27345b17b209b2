// What is known of all variants, as JSON and as CSV.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "night/night_files.h"

namespace dapple {

// What overnight.json holds and the page of the night shows. Variants are ranked.
nlohmann::ordered_json night_json(const NightPlan& plan,
                                  const std::vector<NightVariantState>& states);
std::string night_json_text(const NightPlan& plan, const std::vector<NightVariantState>& states);

// As overnight.json has it.
std::string fingerprint_text(uint64_t fingerprint);

std::string night_csv(const NightPlan& plan, const std::vector<NightVariantState>& states);

// "f/4, 1/60 s, ISO 800" if all variants have that exposure, else "".
std::string night_exposure(const std::vector<NightVariantState>& states);

// What the sheet and the page say of ties and of errors.
extern const std::string kTieRule;
extern const std::string kDifferenceRule;

// The variant that all are compared with: the best, or without a ranking the first with measures.
// The number of variants if there is none.
size_t first_variant(const std::vector<NightVariantState>& states);

// By rank; then those that are not ranked, in the plan's order.
std::vector<size_t> order_of_variants(const std::vector<NightVariantState>& states);

// "3", or "3=" if others have the same place; "" without a rank.
std::string place_text(const NightVariantState& state);

}  // namespace dapple
