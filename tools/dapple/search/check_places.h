// The chosen places of a search, rendered longer: a night whose variants are the places.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "night/night_files.h"
#include "night/run_night.h"
#include "search/run_search.h"

namespace dapple {

struct PlaceCheck {
    NightOptions night;
    int width = 0;     // px
    double hours = 0;  // at most; 0: no such limit
};

struct CheckedPlaces {
    NightPlan plan;
    std::vector<NightVariantState> states;  // ranked
    NightOutcome outcome;
    // Which try each variant is; nothing: the set as it is.
    std::vector<std::optional<size_t>> tries;

    // The same by rank, as the sheet counts them.
    std::vector<std::optional<size_t>> by_rank() const;
};

// Renders the chosen tries and, if it can be used, the set as it is. Leaves in the night's folder
// what a night leaves there.
CheckedPlaces check_places(const SearchQuestion& question,
                           const std::vector<SearchTry>& tries,
                           const std::vector<size_t>& chosen,
                           const PlaceCheck& check,
                           Problems& problems);

}  // namespace dapple
