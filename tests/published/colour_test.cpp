// Chromaticities of standard lights.
#include <doctest/doctest.h>

#include "published/published.h"
#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Colour of standard lights");

}  // namespace

TEST_CASE("standard illuminant A has its published chromaticity") {
    const Xy a = xy_of(integrate_xyz(illuminant_a()));
    // Our curves end at 380 and 780 nm, which moves A by less than 2e-5.
    const Allowance cut{2e-5, "curves end at 380 and 780 nm"};
    kSubject.exact("x of illuminant A", "CIE 15:2018, table 1", "", "0.44758", a.x, cut);
    kSubject.exact("y of illuminant A", "CIE 15:2018, table 1", "", "0.40745", a.y, cut);
}
