#include "math/student_t.h"

#include <doctest/doctest.h>

#include <array>

using namespace dapple;

// Two-sided table of Student's t as printed in statistics handbooks (from memory; the same in
// NIST/SEMATECH, e-Handbook of Statistical Methods, section 1.3.6.7.2).
TEST_CASE("Student's t is that of the table") {
    struct Row {
        int freedom;
        double within_95, within_99;
    };
    constexpr std::array<Row, 8> kTable = {{{1, 12.706, 63.657},
                                            {2, 4.303, 9.925},
                                            {3, 3.182, 5.841},
                                            {4, 2.776, 4.604},
                                            {5, 2.571, 4.032},
                                            {10, 2.228, 3.169},
                                            {30, 2.042, 2.750},
                                            {100, 1.984, 2.626}}};
    for (const Row& row : kTable) {
        CAPTURE(row.freedom);
        // Half of the last printed digit.
        CHECK(std::abs(student_t(0.95, row.freedom) - row.within_95) < 0.00051);
        CHECK(std::abs(student_t(0.99, row.freedom) - row.within_99) < 0.00051);
    }
}

TEST_CASE("with many degrees of freedom Student's t is the Gaussian's") {
    CHECK(student_t(0.6827, 1000000) == doctest::Approx(1).epsilon(0.001));
    CHECK(student_t(0.9545, 1000000) == doctest::Approx(2).epsilon(0.002));
    CHECK(student_t(0, 5) == doctest::Approx(0).epsilon(1e-9));
}
