// Which knob moved a measure, by how much, and how surely.
//
//   y_i ≈ μ + Σ_k e_k(level of knob k in variant i),  Σ_levels e_k = 0                      (E181)
// fitted by least squares, every variant alike. In a complete grid e_k(l) is the mean of the
// variants with level l less the grand mean. A knob that counts as a line has e_k = b (x - mean x).
//
//   σ²(Σ c_i y_i) = Σ_films max(Σ c_i² σ_i², (Σ c_i σ_i)²) + s² Σ c_i²                      (E182)
// Every effect is a sum Σ c_i y_i. σ_i is the standard error of y_i. Variants of one film share its
// noise to a degree that is not known: the sum takes the worse of not at all and wholly. Different
// films count as independent (score_variants.h says what that means). s² is the mean square of what
// E181 leaves beyond noise, per degree of freedom; 0 in a complete grid, where the other knobs'
// values are the same for all levels.
//
//   moved = highest e_k - lowest e_k; beyond noise if |moved| > z σ, z² = 4 + 2 ln(pairs) (E183)
// pairs = L (L - 1) / 2: the widest of many differences is wide by chance alone. Our own rule; for
// one pair it is two standard errors (more of them if there were few passes, E114), and the chance
// of a false one stays about that for many, as the tail of a Gaussian falls with exp(-z²/2).
//
//   unexplained share = Σ (y - fit)² / Σ (y - ȳ)²                                           (E184)
// What E181 cannot explain: knobs that act together, and lines that are not straight. Noise alone
// makes it the noise share.
// Sources: Box, Hunter and Hunter 1978, chapter 10 (from memory), for grids; the rest is our own.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "judge/measure.h"
#include "variants/factors.h"

namespace dapple {

struct LevelEffect {
    std::string level;
    double mean = 0;              // μ + effect
    std::optional<double> error;  // of the effect; nothing: not known
};

struct KnobEffect {
    size_t factor = 0;                  // in the list of factors
    std::vector<LevelEffect> levels;    // of a line: its two ends
    size_t low = 0, high = 0;           // the levels with the lowest and the highest mean
    std::optional<double> moved_error;  // of high - low
    bool beyond_noise = false;
    std::vector<size_t> apart;  // factors that it cannot be told from; then `levels` is empty

    double moved() const { return levels.empty() ? 0 : levels[high].mean - levels[low].mean; }
};

struct MainEffects {
    size_t variants = 0;                      // that the measure is known of
    int passes = 0;                           // behind the errors, of all variants together (E114)
    double mean = 0;                          // μ
    std::vector<KnobEffect> knobs;            // by factor
    std::optional<double> unexplained_share;  // nothing: as many terms as variants, or all the same
    std::optional<double> noise_share;        // the part of it that noise makes, at most
};

// `measures` and `film_of` are by variant, as `Factor::level`. Variants without a value are left
// out, and those without an error if others have one.
MainEffects fit_main_effects(const std::vector<Factor>& factors,
                             const std::vector<Measure>& measures,
                             const std::vector<size_t>& film_of);

}  // namespace dapple
