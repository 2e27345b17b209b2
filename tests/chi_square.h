// Pearson's test that counts were drawn with given expectations.
//
//   χ² = Σ (count - expected)² / expected,  k = bins - 1 degrees of freedom
//   z  = ((χ²/k)^(1/3) - (1 - 2/(9k))) / sqrt(2/(9k))          Wilson and Hilferty 1931
// z is a standard normal number when the expectations are right. The approximation is poor for
// bins that expect fewer than five, so these are merged first.
#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

namespace dapple {

inline double chi_square_z(const std::vector<double>& counts, const std::vector<double>& expected) {
    double chi_square = 0;
    double rare_count = 0;
    double rare_expected = 0;
    int bins = 0;
    const auto add = [&](double count, double expectation) {
        chi_square += (count - expectation) * (count - expectation) / expectation;
        ++bins;
    };
    for (size_t i = 0; i < counts.size(); ++i) {
        if (expected[i] >= 5) {
            add(counts[i], expected[i]);
        } else {
            rare_count += counts[i];
            rare_expected += expected[i];
        }
    }
    if (rare_expected > 0) add(rare_count, rare_expected);
    const double k = bins - 1;
    const double spread = 2.0 / (9.0 * k);
    return (std::cbrt(chi_square / k) - (1.0 - spread)) / std::sqrt(spread);
}

inline double chi_square_z_uniform(const std::vector<double>& counts) {
    double total = 0;
    for (const double c : counts) total += c;
    const std::vector<double> expected(counts.size(), total / static_cast<double>(counts.size()));
    return chi_square_z(counts, expected);
}

// With the fixed seeds of our tests a right program stays below this; a wrong one would have to be
// lucky at 1 in 30 000.
inline constexpr double kChiSquareLimit = 4.0;

}  // namespace dapple
