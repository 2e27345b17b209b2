#include "spectrum/curve.h"

#include <doctest/doctest.h>

namespace dapple {

TEST_CASE("a curve is linear between whole nanometres and held at its ends") {
    const Curve slope([](double nm) { return 2.0 * nm; });
    // Values near 1000 in floats: 6e-5 absolute.
    CHECK(slope.at(500.25F) == doctest::Approx(1000.5).epsilon(1e-6));
    CHECK(slope.at(100.0F) == 760.0F);
    CHECK(slope.at(380.0F) == 760.0F);
    CHECK(slope.at(780.0F) == 1560.0F);
    CHECK(slope.at(900.0F) == 1560.0F);
}

TEST_CASE("a table is interpolated linearly and its end values are held outside it") {
    const Curve curve({1.0, 3.0, 2.0}, 400.0, 100.0);
    CHECK(curve.at(380.0F) == 1.0F);
    CHECK(curve.at(450.0F) == doctest::Approx(2.0));
    CHECK(curve.at(500.0F) == doctest::Approx(3.0));
    CHECK(curve.at(575.0F) == doctest::Approx(2.25));
    CHECK(curve.at(700.0F) == 2.0F);
    CHECK(Curve({5.0}, 500.0, 10.0).at(420.0F) == 5.0F);
}

TEST_CASE("the integral of two curves is the sum over the 401 nanometres") {
    const Curve two(2.0F);
    const Curve slope([](double nm) { return nm - 580.0; });
    CHECK(integrate(two, Curve(0.5F)) == doctest::Approx(401.0).epsilon(1e-12));
    CHECK(integrate(two, slope) == doctest::Approx(0.0));  // odd about 580 nm
    // Σ k² for k = -200 … 200 is 200 · 201 · 401 / 3.
    CHECK(integrate(slope, slope) == doctest::Approx(200.0 * 201.0 * 401.0 / 3.0).epsilon(1e-12));
}

}  // namespace dapple
