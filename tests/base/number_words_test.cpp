#include "base/number_words.h"

#include <doctest/doctest.h>

namespace dapple {

TEST_CASE("large numbers are round and have spaces between thousands") {
    CHECK(round_number(3.16e6, 2) == "3 200 000");
    CHECK(round_number(123456, 3) == "123 000");
    CHECK(round_number(1234, 3) == "1 230");
    CHECK(round_number(999.6, 3) == "1 000");
    CHECK(round_number(1000, 3) == "1 000");
    CHECK(round_number(847.3, 3) == "847");
    CHECK(round_number(0.04567, 3) == "0.0457");
    CHECK(round_number(-25000, 2) == "-25 000");
    CHECK(round_number(0, 3) == "0");
    CHECK(round_number(999.6, 4) == "999.6");
}

TEST_CASE("a number is never written as a power of ten") {
    CHECK(round_number(100, 2) == "100");
    CHECK(round_number(99.7, 2) == "100");
    CHECK(round_number(847.3, 1) == "800");
    CHECK(round_number(12.3, 2) == "12");
    CHECK(round_number(0.0000123, 2) == "0.000012");
    CHECK(round_number(-0.5, 2) == "-0.5");
    CHECK(round_number(1e-20, 2) == "0");
}

TEST_CASE("a small value has no minus before its zero") {
    CHECK(signed_number(-0.04, 1) == "0.0");
    CHECK(signed_number(0.04, 1) == "0.0");
    CHECK(signed_number(-0.06, 1) == "-0.1");
    CHECK(signed_number(1.25, 2) == "+1.25");
    CHECK(signed_number(-0.0, 2) == "0.00");
}

}  // namespace dapple
