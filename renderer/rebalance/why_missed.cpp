#include "rebalance/why_missed.h"

namespace dapple {

namespace {

void add_name(std::string& list, const std::string& name) {
    list += (list.empty() ? "" : ", ") + name;
}

// The target by itself: what it gets to, and the dimmers that stop it.
std::string limit_text(const FilmRecord& film, const Balance& alone) {
    const TargetResult& result = alone.results.front();
    std::string full;
    std::string off;
    for (const Fixture& f : alone.fixtures) {
        if (f.is_window) continue;
        if (f.dimmer >= 0.999F) add_name(full, f.name);
        if (static_cast<double>(f.dimmer) < 1.01 * kLeastDimmer) add_name(off, f.name);
    }
    std::string text = "alone it gets to " + value_text(film, result.target, result.after);
    if (!full.empty()) text += ", with " + full + " at full";
    if (!off.empty()) text += (full.empty() ? ", with " : " and ") + off + " as good as off";
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
        reasons.push_back(is_told ? limit_text(film, alone) : "");
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
