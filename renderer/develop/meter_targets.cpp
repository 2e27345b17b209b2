#include "develop/meter_targets.h"

#include <array>
#include <cmath>
#include <cstdio>

#include "develop/exposure.h"
#include "film/printed_error.h"

namespace dapple {

namespace {

constexpr double kKnownToStops = 1.0 / 3;

std::string printed_number(const char* format, double value) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), format, value);
    return text.data();
}

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

std::string target_words(const MeterTarget& t) {
    if (!(t.lux > 0)) return "no light";
    std::string text = printed_number(t.lux >= 100 ? "%.0f lx" : "%.3g lx", t.lux);
    if (!t.f_number) return "not known yet, about " + text;
    constexpr double kFastestMark = 0.5;  // of hand meters
    text = (*t.f_number < kFastestMark ? "under f/0.5" : "f/" + t.f_stop) + "  " + text;
    // Errors of less than half a tenth of a stop do not change the tenths.
    if (t.shown_stops >= 0.05) text += printed_number("  ±%.1f", t.shown_stops);
    return text;
}

}  // namespace dapple
