// Numbers as people read them: no powers of ten, no minus before a zero.
#pragma once

#include <string>

namespace dapple {

// Rounded to that many digits, with a space between thousands: 3 200 000, 100, 0.046. Without zeros
// behind the last decimal.
std::string round_number(double value, int digits);

// With its sign and that many decimals: "+0.3". A value that rounds to zero is "0.0".
std::string signed_number(double value, int decimals);

}  // namespace dapple
