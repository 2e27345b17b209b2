// The ± that is printed behind a number: half of the interval around it that holds the truth in 68
// of 100 cases.
//
//   ± = t s,  A(t|n - 1) = 0.6827  (E113)                                                  (E114)
// s is the standard error from the spread over n passes. Two passes show their spread so badly that
// s alone would hold the truth in 50 cases. Files keep s.
// Source: Student (Gosset) 1908. Checked on 40 seeds: tests/render/meter_cover_test.cpp.
#pragma once

#include <optional>

namespace dapple {

// With fewer passes the spread is off by half of itself or more, and no ± is printed.
inline constexpr int kPassesToKnowSpread = 4;

// Nothing: not known yet. `passes`: behind the standard error; 0: it has another source with many
// degrees of freedom, and is printed as it is.
std::optional<double> printed_error(const std::optional<double>& standard_error, int passes);

// How many standard errors apart two numbers must be to differ by more than noise in 95.45 of 100
// cases; 2 for many passes.
double errors_to_tell_apart(int passes);

}  // namespace dapple
