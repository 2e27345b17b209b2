#include "search/run_search.h"

#include <algorithm>
#include <limits>
#include <map>

#include "render/work_watch.h"
#include "variants/knob_words.h"
#include "variants/search/choose_places.h"
#include "variants/search/search_steps.h"

namespace dapple {

namespace {

// A place whose light cannot be measured, because it is too dark, is the last of all.
std::optional<double> told_score(const SearchTry& made) {
    if (!made.is_usable()) return std::nullopt;
    return made.rating.score ? *made.rating.score : std::numeric_limits<double>::infinity();
}

// Whether a place is among the better half of the tries so far, by its first passes.
bool is_in_better_half(const PlaceRating& rating, const std::vector<SearchTry>& tries) {
    if (!rating.score) return false;
    const auto better = std::count_if(tries.begin(), tries.end(), [&](const SearchTry& t) {
        return told_score(t) && *told_score(t) < *rating.score;
    });
    return 2 * better <= rated_tries(tries);
}

// Nothing if the search was stopped.
std::optional<SearchTry> try_place(const SearchQuestion& question,
                                   const PlaceRater& rater,
                                   std::vector<double> u,
                                   const std::vector<SearchTry>& tries,
                                   const SearchListeners& listeners) {
    SearchTry made{std::move(u), {}, {}};
    made.changes = question.space.changes_at(made.u);
    try {
        if (!listeners.goes_on()) return std::nullopt;
        const auto looks_good = [&](const PlaceRating& r) { return is_in_better_half(r, tries); };
        made.rating =
            rater.rate(made.changes, {listeners.goes_on, looks_good, listeners.wants_picture});
    } catch (const StoppedWork&) {
        return std::nullopt;
    }
    listeners.on_try(made);
    made.rating.picture.reset();
    return made;
}

}  // namespace

bool run_search(const SearchQuestion& question,
                const PlaceRater& rater,
                int wanted_tries,
                std::vector<SearchTry>& tries,
                const SearchListeners& listeners) {
    std::map<std::vector<double>, SearchTry> earlier;
    for (SearchTry& made : tries) earlier[made.u] = std::move(made);
    tries.clear();
    SearchSteps steps(question.space.dimensions(), wanted_tries);
    while (!steps.is_done()) {
        if (const auto found = earlier.find(steps.next()); found != earlier.end()) {
            tries.push_back(found->second);
        } else if (auto made = try_place(question, rater, steps.next(), tries, listeners)) {
            tries.push_back(std::move(*made));
        } else {
            return false;
        }
        steps.tell(told_score(tries.back()));
    }
    return true;
}

std::vector<size_t> chosen_tries(const std::vector<SearchTry>& tries, size_t count) {
    std::vector<RatedPlace> places;
    std::vector<size_t> indices;
    for (size_t i = 0; i < tries.size(); ++i) {
        if (!tries[i].is_usable() || !tries[i].rating.score) continue;
        places.push_back({tries[i].u, *tries[i].rating.score, tries[i].rating.look});
        indices.push_back(i);
    }
    std::vector<size_t> chosen;
    for (const size_t p : choose_places(places, count - count / 2, count / 2)) {
        chosen.push_back(indices[p]);
    }
    return chosen;
}

int rated_tries(const std::vector<SearchTry>& tries) {
    return static_cast<int>(std::count_if(
        tries.begin(), tries.end(), [](const SearchTry& t) { return t.is_usable(); }));
}

std::string commonest_trouble(const std::vector<SearchTry>& tries) {
    std::map<std::string, int> counts;
    for (const SearchTry& made : tries) {
        if (!made.is_usable()) ++counts[made.rating.unusable];
    }
    const auto most =
        std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) {
            return a.second < b.second;
        });
    return most == counts.end() ? "" : most->first;
}

std::string words_for_place(const std::vector<SetChange>& changes) {
    std::string words;
    for (const SetChange& change : changes) {
        const std::string key = change.address.substr(change.address.rfind('.') + 1);
        std::string value = words_for_level(change.address, change.value);
        if (key == "position") value = change.value.substr(1, change.value.size() - 2) + " m";
        words += (words.empty() ? "" : ", ") +
                 (key == "position" ? value : words_for_address("thing." + key) + " " + value);
    }
    return words;
}

std::string words_for_measures(const std::vector<Wish>& wishes,
                               const std::vector<Measure>& measures) {
    std::string text;
    for (size_t w = 0; w < wishes.size() && w < measures.size(); ++w) {
        const MeasureWords words = words_for_measure(wishes[w].measure);
        std::optional<double> error = measures[w].error;
        if (error) *error *= words.scale;
        text += (text.empty() ? "" : "; ") + words.name + " " +
                (measures[w] ? figure_text(words.scale * *measures[w], error) + " " + words.unit
                             : "not known");
    }
    return text;
}

}  // namespace dapple
