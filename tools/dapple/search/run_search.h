// Tries places, one after another, until all tries are made or somebody stops it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "search/rate_place.h"

namespace dapple {

// One place that was tried.
struct SearchTry {
    std::vector<double> u;  // coordinates in the search's space
    std::vector<SetChange> changes;
    PlaceRating rating;

    bool is_usable() const { return rating.unusable.empty(); }
};

struct SearchListeners {
    std::function<bool()> goes_on;  // false stops the search at once
    // After each new try, before it is in `tries`; the picture is there if `wants_picture` said so.
    std::function<void(const SearchTry&)> on_try;
    std::function<bool(const PlaceRating&)> wants_picture;
};

// Fills in `tries`. If it holds those of an earlier run of the same search, which may have had
// another number of tries, they are not made again. Returns false if it was stopped.
bool run_search(const SearchQuestion& question,
                const PlaceRater& rater,
                int wanted_tries,
                std::vector<SearchTry>& tries,
                const SearchListeners& listeners);

// The tries that are looked at more closely, by their index, the best first.
std::vector<size_t> chosen_tries(const std::vector<SearchTry>& tries, size_t count);

// Tries that have a score.
int rated_tries(const std::vector<SearchTry>& tries);

// The commonest reason why tries could not be used; "" if all could.
std::string commonest_trouble(const std::vector<SearchTry>& tries);

// What varies at a place, in words: "position 0.46, 0.0, -0.66 m, turn 7.5°".
std::string words_for_place(const std::vector<SetChange>& changes);

// "back wall texture 0.52 ± 0.01 stops", by wish.
std::string words_for_measures(const std::vector<Wish>& wishes,
                               const std::vector<Measure>& measures);

}  // namespace dapple
