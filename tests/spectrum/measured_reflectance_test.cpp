#include "spectrum/measured_reflectance.h"

#include <doctest/doctest.h>

#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

using namespace dapple;

namespace {

double luminous(MeasuredReflectance which) {
    const Curve light = daylight_d65();
    return integrate_xyz(measured_reflectance(which) * light).y / integrate_xyz(light).y;
}

}  // namespace

// Luminous reflectances under D65 of the same samples of Vrhel, Gershon and Iwan 1994, computed at
// their steps of 2 nm; our steps of 10 nm change them by less than a hundredth.
TEST_CASE("skin and hair reflect as much light as their samples") {
    const struct {
        MeasuredReflectance which;
        double luminous;
    } rows[] = {
        {MeasuredReflectance::kLightSkin, (0.3523 + 0.3335 + 0.4066 + 0.3417) / 4},
        {MeasuredReflectance::kMediumSkin, (0.1751 + 0.2341 + 0.2170 + 0.2652 + 0.3034) / 5},
        {MeasuredReflectance::kDarkSkin, (0.0438 + 0.0489) / 2},
        {MeasuredReflectance::kDarkHair, (0.0154 + 0.0151) / 2},
        {MeasuredReflectance::kFairHair, 0.1047}};
    for (const auto& row : rows) {
        CHECK(luminous(row.which) == doctest::Approx(row.luminous).epsilon(0.01));
    }
}

// Blood shows in light skin as two dips and a step up to the red above 580 nm.
TEST_CASE("light skin has the dips of blood and reflects strongly in the red") {
    const Curve& skin = measured_reflectance(MeasuredReflectance::kLightSkin);
    CHECK(skin.at(540) < skin.at(510));
    CHECK(skin.at(540) < skin.at(560));
    CHECK(skin.at(620) > 1.7F * skin.at(580));
}
