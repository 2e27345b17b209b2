// Measures as text: the number with its error, in as many digits as the error leaves. Private to
// this folder.
#pragma once

#include <string>

#include "judge/measure.h"

namespace dapple {

// "0.62 ± 0.01"; "0.62" without an error, or with one of less than half of the last digit; "-" if
// there is no value. `most`: decimals.
std::string measure_text(const Measure& measure, int most);

// A share in per cent, "12 ± 1 %".
std::string share_text(const Measure& share);

// "+1.3 ± 0.1"
std::string signed_text(const Measure& measure, int most);

}  // namespace dapple
