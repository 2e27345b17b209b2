#include "search/check_places.h"

#include <cctype>

#include "night/night_tables.h"
#include "night/take_stock.h"

namespace dapple {

namespace {

const std::string kAsItIs = "as it is";

// "-0.46, 0.0 m, turn 7.5°" → "m0.46-0.0-m-turn-7.5": the same place has the same folder in every
// run of the search.
std::string folder_of_place(const std::string& words) {
    std::string folder;
    for (const char c : words) {
        if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.') {
            folder += c;
        } else if (c == '-') {
            folder += 'm';
        } else if (!folder.empty() && folder.back() != '-') {
            folder += '-';
        }
    }
    while (!folder.empty() && folder.back() == '-') folder.pop_back();
    return folder;
}

std::vector<Variant> variants_of(const std::vector<SearchTry>& tries,
                                 const std::vector<size_t>& chosen) {
    std::vector<Variant> variants{{kAsItIs, "as-it-is", {}, kAsItIs}};
    for (const size_t i : chosen) {
        const std::string words = words_for_place(tries[i].changes);
        variants.push_back({words, folder_of_place(words), tries[i].changes, words});
    }
    return variants;
}

}  // namespace

std::vector<std::optional<size_t>> CheckedPlaces::by_rank() const {
    std::vector<std::optional<size_t>> ranked;
    for (const size_t v : order_of_variants(states)) {
        if (states[v].standing.rank > 0) ranked.push_back(tries[v]);
    }
    return ranked;
}

CheckedPlaces check_places(const SearchQuestion& question,
                           const std::vector<SearchTry>& tries,
                           const std::vector<size_t>& chosen,
                           const PlaceCheck& check,
                           Problems& problems) {
    CheckedPlaces checked;
    VariantsFile file;
    file.path = file.set_path = question.set_path;
    file.set_place = {question.set_path};
    file.wishes = question.wishes;
    checked.plan = plan_variants(file,
                                 question.set_text,
                                 variants_of(tries, chosen),
                                 check.width,
                                 check.night.render,
                                 problems);
    if (!problems.empty()) return checked;
    checked.tries.emplace_back();
    for (const size_t i : chosen) checked.tries.emplace_back(i);
    std::vector<NightState> earlier = read_night_states(check.night.folder, checked.plan);
    take_stock(checked.plan, check.night.folder, earlier);
    checked.states.resize(earlier.size());
    for (size_t i = 0; i < earlier.size(); ++i) checked.states[i].state = earlier[i];
    const NightEnd end(machine_clock(), std::nullopt, check.hours);
    NightOptions night = check.night;
    night.lit_through = question.space.address;
    checked.outcome = run_night(checked.plan, night, end, checked.states);
    return checked;
}

}  // namespace dapple
