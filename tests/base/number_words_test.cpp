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
}

TEST_CASE("a small value has no minus before its zero") {
    CHECK(signed_number(-0.04, 1) == "0.0");
    CHECK(signed_number(0.04, 1) == "0.0");
    CHECK(signed_number(-0.06, 1) == "-0.1");
    CHECK(signed_number(1.25, 2) == "+1.25");
    CHECK(signed_number(-0.0, 2) == "0.00");
}

}  // namespace dapple
