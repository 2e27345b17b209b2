#include "variants/score_variants.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace dapple {

namespace {

double distance_of(const Wish& wish, double value) {
    switch (wish.kind) {
        case WishKind::kNear:
            return std::abs(value - wish.want);
        case WishKind::kMost:
            return -value;
        case WishKind::kLeast:
            return value;
    }
    return 0;
}

bool cannot_be_told(const Measure& first, const Measure& next) {
    const Measure difference = difference_of(first, next);
    if (*difference == 0) return true;
    const double errors = errors_to_tell_apart(difference.passes);
    return difference.error && std::abs(*difference) <= errors * *difference.error;
}

}  // namespace

Measure score_of(const std::vector<Wish>& wishes, const std::vector<Measure>& measures) {
    if (wishes.empty()) return Measure::unknown("nothing is wished for");
    double score = 0;
    double variance = 0;
    int passes = 0;
    bool has_error = true;
    for (size_t w = 0; w < wishes.size(); ++w) {
        if (!measures[w]) return Measure::unknown(measures[w].why);
        score += wishes[w].weight * distance_of(wishes[w], *measures[w]);
        passes = fewer_passes(passes, measures[w].passes);
        has_error = has_error && measures[w].error;
        if (has_error) variance += std::pow(wishes[w].weight * *measures[w].error, 2);
    }
    return {score, has_error ? std::optional(std::sqrt(variance)) : std::nullopt, {}, passes};
}

Measure difference_of(const Measure& a, const Measure& b) {
    if (!a) return Measure::unknown(a.why);
    if (!b) return Measure::unknown(b.why);
    Measure difference{*b - *a, std::nullopt, {}, fewer_passes(a.passes, b.passes)};
    if (a.error && b.error) difference.error = std::hypot(*a.error, *b.error);
    return difference;
}

std::vector<ScoreRank> rank_scores(const std::vector<Measure>& scores) {
    std::vector<size_t> order(scores.size());
    std::iota(order.begin(), order.end(), size_t{0});
    std::erase_if(order, [&](size_t i) { return !scores[i]; });
    std::stable_sort(
        order.begin(), order.end(), [&](size_t a, size_t b) { return *scores[a] < *scores[b]; });
    std::vector<ScoreRank> standings(scores.size());
    for (size_t first = 0; first < order.size();) {
        size_t end = first + 1;
        while (end < order.size() && cannot_be_told(scores[order[first]], scores[order[end]])) {
            ++end;
        }
        for (size_t r = first; r < end; ++r) {
            ScoreRank& own = standings[order[r]];
            own.rank = static_cast<int>(r + 1);
            own.place = static_cast<int>(first + 1);
            if (scores[order[r]].error) own.tied = end - first > 1;
        }
        first = end;
    }
    return standings;
}

}  // namespace dapple
