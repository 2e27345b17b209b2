// How near each variant is to the wishes, and which of two scores can be told apart.
//
//   score = Σ_w weight_w d_w,  d = |m - want| for a number, -m for "most", m for "least"    (E178)
//   σ² = Σ_w weight_w² σ_w²
//   σ of a difference of a and b = √(σ_a² + σ_b²)                                           (E179)
// m is a measure with the standard error σ_w; the less the score, the better. E178 takes the errors
// of a variant's measures as independent. |m - want| has at most the error of m, also near 0.
//
// E179 takes variants as independent. They are not: all have the same random numbers, and some are
// made from one film. Mostly that makes the true error of a difference smaller. Where one variant
// is above a wish and the other below, it can make it larger, by √2 at most: (σ_a + σ_b)² ≤ 2 (σ_a²
// + σ_b²).
//
// Ties: the best variant begins a group. Every next one whose score is within two standard errors
// (more of them after few passes, E114) of the difference to that first one belongs to the group.
// The first that does not begins another.
#pragma once

#include <optional>
#include <vector>

#include "judge/measure.h"
#include "set/variants/variants_file.h"

namespace dapple {

// `measures` are those of the wishes, in their order. Unknown if any of them is, or without wishes.
// If the error of one is not known, that of the score is not either.
Measure score_of(const std::vector<Wish>& wishes, const std::vector<Measure>& measures);

// b - a by E179; unknown if either is.
Measure difference_of(const Measure& a, const Measure& b);

struct ScoreRank {
    int rank = 0;   // from 1, each once; 0: not ranked
    int place = 0;  // the rank of the first of its group
    // Whether another one has the same place; nothing: not known, because an error is not known.
    std::optional<bool> tied;
};

// By score. Variants without one are not ranked. Equal scores keep their order. A score without an
// error is in a group of its own, unless the one before is exactly the same.
std::vector<ScoreRank> rank_scores(const std::vector<Measure>& scores);

}  // namespace dapple
