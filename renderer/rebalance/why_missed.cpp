#include "rebalance/why_missed.h"

#include <algorithm>

namespace dapple {

namespace {

void add_name(std::string& list, const std::string& name) {
    list += (list.empty() ? "" : ", ") + name;
}

void add_list(std::string& text, const std::string& names, const std::string& state) {
    if (!names.empty()) text += ", with " + names + " " + state;
}

// The target by itself: what it gets to, and the dimmers that stop it. A ratio may be stopped by
// both limits.
std::string limit_text(const FilmRecord& film,
                       const std::vector<size_t>& kept,
                       const Balance& alone) {
    const TargetResult& result = alone.results.front();
    const bool is_ratio = result.target.against.has_value();
    const bool is_dark = result.missed_stops() < 0;
    std::string full;
    std::string off;
    std::string as_is;
    for (size_t i = 0; i < alone.fixtures.size(); ++i) {
        const Fixture& f = alone.fixtures[i];
        const auto dimmer = static_cast<double>(f.dimmer);
        if (f.is_window || std::find(kept.begin(), kept.end(), i) != kept.end()) {
            add_name(as_is, f.name);
        } else if (dimmer >= 0.999 && (is_ratio || is_dark)) {
            add_name(full, f.name);
        } else if (dimmer < 1.01 * kLeastDimmer && (is_ratio || !is_dark)) {
            add_name(off, f.name);
        }
    }
    std::string text = "alone it gets to " + value_text(film, result.target, result.after);
    add_list(text, full, "at full");
    add_list(text, off, "as good as off");
    if (!as_is.empty()) text += ", " + as_is + " kept";
    return text;
}

bool are_reached(const Balance& balance) {
    for (const TargetResult& r : balance.results) {
        if (!r.is_reached()) return false;
    }
    return true;
}

}  // namespace

std::vector<std::string> why_missed(const FilmRecord& film,
                                    const std::vector<size_t>& kept,
                                    const Balance& balance) {
    std::vector<std::string> reasons;
    std::vector<bool> can_be_met;
    for (const TargetResult& r : balance.results) {
        const Balance alone = find_balance(film, {r.target}, kept);
        can_be_met.push_back(are_reached(alone));
        const bool is_told = !r.is_reached() && !can_be_met.back();
        reasons.push_back(is_told ? limit_text(film, kept, alone) : "");
    }
    for (size_t i = 0; i < reasons.size(); ++i) {
        if (balance.results[i].is_reached() || !can_be_met[i]) continue;
        std::string others;
        for (size_t j = 0; j < reasons.size(); ++j) {
            const Target& other = balance.results[j].target;
            if (i == j) continue;
            if (are_reached(find_balance(film, {balance.results[i].target, other}, kept))) continue;
            add_name(others, "\"" + other.text + "\"");
        }
        reasons[i] = others.empty() ? "can be met alone, but not with all the others"
                                    : "conflicts with " + others;
    }
    return reasons;
}

}  // namespace dapple
