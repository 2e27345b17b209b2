// What a meter must read with each light alone.
#include "develop/meter_targets.h"

#include <doctest/doctest.h>

#include <cmath>

#include "develop/exposure.h"
#include "judge/judge_meters.h"

using namespace dapple;

namespace {

Scene two_lights() {
    Scene scene;
    scene.camera.iso = 800;
    scene.camera.shutter = 1.0F / 60;
    for (const char* name : {"key", "dusk"}) scene.fixtures.emplace_back().name = name;
    scene.fixtures[1].is_window = true;
    for (const ReceptorKind kind : {ReceptorKind::kFlat, ReceptorKind::kDome}) {
        Meter meter;
        meter.name = kind == ReceptorKind::kDome ? "dome" : "flat";
        meter.receptor = kind;
        scene.meters.push_back(meter);
    }
    return scene;
}

}  // namespace

TEST_CASE("a light's target is what the meter shows when the light is alone") {
    const Scene scene = two_lights();
    const Reading both{300, 1, {{250, 1}, {50, 0.5}}};
    const std::vector<MeterTarget> targets = make_meter_targets({both, both}, 16, scene);
    REQUIRE(targets.size() == 6);
    CHECK(targets[0].fixture.empty());
    CHECK(targets[1].fixture == "key");
    CHECK(targets[2].is_window);
    for (size_t m = 0; m < 2; ++m) {
        const Reading alone{250, 1, {{250, 1}, {0, 0}}};
        const MeterJudgement shown =
            judge_meters({alone, alone}, scene.meters, scene.fixtures, scene.camera)[m];
        const MeterTarget& target = targets[3 * m + 1];
        REQUIRE(target.f_number.has_value());
        CHECK(*target.f_number == doctest::Approx(shown.f_number));
        CHECK(target.f_stop == f_stop_text(shown.f_number));
        CHECK(target.lux == 250);
        // A relative error of 1/250 in stops.
        CHECK(target.stops_stderr == doctest::Approx(std::log2(std::exp(1.0)) / 250));
    }
}

TEST_CASE("what is not known to a third of a stop, or after few passes, has no f-number") {
    const Scene scene = two_lights();
    const Reading rough{100, 30, {{100, 30}, {0, 0}}};
    for (const MeterTarget& target : make_meter_targets({rough, rough}, 100, scene)) {
        CHECK_FALSE(target.f_number.has_value());
        CHECK(target.f_stop.empty());
    }
    const Reading fine{100, 1, {{100, 1}, {0, 0}}};
    CHECK_FALSE(make_meter_targets({fine, fine}, 3, scene)[0].f_number.has_value());
    CHECK(make_meter_targets({fine, fine}, 4, scene)[0].f_number.has_value());
}
