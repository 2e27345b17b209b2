#include "develop/meter_targets.h"

#include <cmath>

#include "develop/exposure.h"
#include "film/printed_error.h"

namespace dapple {

namespace {

constexpr double kKnownToStops = 1.0 / 3;

MeterTarget make_target(
    const Meter& meter, double lux, double lux_stderr, int passes, const Camera& camera) {
    MeterTarget target;
    target.meter = meter.name;
    target.lux = lux;
    target.lux_stderr = lux_stderr;
    if (!(lux > 0)) return target;
    target.stops_stderr = lux_stderr / lux / std::log(2.0);
    if (passes < kPassesToKnowSpread || target.stops_stderr > kKnownToStops) return target;
    const double calibration =
        meter.receptor == ReceptorKind::kDome ? kDomeCalibration : kIncidentCalibration;
    target.f_number = metered_f_number(lux, camera.shutter, camera.iso, calibration);
    target.f_stop = f_stop_text(*target.f_number);
    target.shown_stops = printed_error(target.stops_stderr, passes).value_or(0);
    return target;
}

}  // namespace

std::vector<MeterTarget> make_meter_targets(const std::vector<Reading>& readings,
                                            int passes,
                                            const Scene& scene) {
    std::vector<MeterTarget> targets;
    for (size_t m = 0; m < readings.size(); ++m) {
        const Reading& reading = readings[m];
        const Meter& meter = scene.meters[m];
        targets.push_back(
            make_target(meter, reading.lux, reading.lux_stderr, passes, scene.camera));
        for (size_t f = 0; f < reading.by_fixture.size(); ++f) {
            const FixtureReading& part = reading.by_fixture[f];
            targets.push_back(make_target(meter, part.lux, part.lux_stderr, passes, scene.camera));
            targets.back().fixture = scene.fixtures[f].name;
            targets.back().is_window = scene.fixtures[f].is_window;
        }
    }
    return targets;
}

}  // namespace dapple
