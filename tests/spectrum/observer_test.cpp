#include "spectrum/observer.h"

#include <doctest/doctest.h>

#include "spectrum/reference_table.h"
#include "spectrum/source_spectrum.h"

namespace dapple {

TEST_CASE("the observer has the published peaks") {
    // CIE 018:2019 table; floats keep seven digits.
    const Observer& o = cie_1931();
    CHECK(o.x.at(600.0F) == doctest::Approx(1.0622).epsilon(1e-6));
    CHECK(o.y.at(555.0F) == 1.0F);
    CHECK(o.z.at(445.0F) == doctest::Approx(1.7826).epsilon(1e-6));
    CHECK(o.x.at(700.0F) == doctest::Approx(0.01135916).epsilon(1e-6));
}

TEST_CASE("the observer's sums are the published ones except for the cut at 380 and 780 nm") {
    // Full 360–830 nm sums: 106.86547, 106.85692, 106.89225 (from the same CIE table). The parts
    // beyond 380 and 780 nm are 0.0104, 0.0005 and 0.0462, most of it violet.
    const Curve one(1.0F);
    const Observer& o = cie_1931();
    CHECK(integrate(o.x, one) == doctest::Approx(106.86547 - 0.0104).epsilon(1e-6));
    CHECK(integrate(o.y, one) == doctest::Approx(106.85692 - 0.0005).epsilon(1e-6));
    CHECK(integrate(o.z, one) == doctest::Approx(106.89225 - 0.0462).epsilon(1e-6));
}

TEST_CASE("the observer is the reference table at every nanometre") {
    ReferenceTable table = read_reference_table("cie1931_2deg_1nm.csv");
    if (table.empty()) return;
    const auto column = [&](const std::string& name) {
        return Curve(table[name], table["nm"].front(), 1.0);
    };
    const Curve x = column("xbar");
    const Curve y = column("ybar");
    const Curve z = column("zbar");
    for (int i = 0; i < Curve::kSize; ++i) {
        CHECK(x[i] == cie_1931().x[i]);
        CHECK(y[i] == cie_1931().y[i]);
        CHECK(z[i] == cie_1931().z[i]);
    }
}

TEST_CASE("one watt at 555 nm is 683 lumens") {
    Curve line;
    line[555 - 380] = 1.0F;  // W/nm over one nanometre
    CHECK(luminous_flux(line) == doctest::Approx(683.0).epsilon(1e-9));
    CHECK(integrate_xyz(line).y == doctest::Approx(1.0).epsilon(1e-9));
}

TEST_CASE("a spectrum scaled to one lumen has one lumen, and the same shape") {
    const Curve slope([](double nm) { return nm / 100.0; });
    const Curve scaled = normalised_to_lumen(slope);
    // Floats of 401 bins: relative rounding 6e-8 each, independent, so 1e-8 in the sum.
    CHECK(luminous_flux(scaled) == doctest::Approx(1.0).epsilon(1e-7));
    CHECK(scaled.at(780.0F) / scaled.at(390.0F) == doctest::Approx(2.0).epsilon(1e-6));
}

}  // namespace dapple
