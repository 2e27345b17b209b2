#include "scene/build_gel.h"

#include <algorithm>
#include <cmath>

#include "scene/checks.h"
#include "set/read_spectrum.h"

namespace dapple {

namespace {

constexpr double kMaxStops = 16;
// A light beyond these temperatures has no colour to speak of as one (K).
constexpr double kWarmest = 1000;
constexpr double kCoolest = 25000;
constexpr double kFlatCct = 5455;  // of equal energy

// A table must reach from here to here (nm); beyond its ends they are held.
constexpr double kMustBegin = 420;
constexpr double kMustEnd = 680;

double checked_stops(const Field<double>& stops, Problems& problems) {
    if (!stops.given || stops.value >= 0) return checked_range(stops, 0, 0, kMaxStops, problems);
    add_problem(stops,
                "from 0 to " + number_text(kMaxStops) + ": a gel cannot pass more than it gets",
                problems);
    return 0;
}

double checked_shift(const Field<double>& shift, const Fixture& fixture, Problems& problems) {
    if (!shift.given || shift.value == 0) return 0;
    const double from =
        1e6 / (fixture.source == SourceKind::kFlat ? kFlatCct : static_cast<double>(fixture.cct_k));
    const double least = 1e6 / kCoolest - from;
    const double most = 1e6 / kWarmest - from;
    if (shift.value >= least && shift.value <= most) return shift.value;
    add_problem(shift,
                "from " + number_text(std::ceil(least)) + " to " + number_text(std::floor(most)) +
                    ", which takes this light to " + number_text(kCoolest) + " and " +
                    number_text(kWarmest) + " K",
                problems);
    return 0;
}

bool check_points(const std::vector<SpectrumPoint>& points, Problems& problems) {
    for (size_t i = 0; i < points.size(); ++i) {
        const SpectrumPoint& p = points[i];
        if (i > 0 && !(p.nm > points[i - 1].nm)) {
            problems.add(p.place,
                         "",
                         "has " + number_text(p.nm) + " nm after " + number_text(points[i - 1].nm) +
                             "; wavelengths must rise");
            return false;
        }
        if (p.value < 0 || p.value > 1) {
            problems.add(p.place,
                         "",
                         "passes " + number_text(p.value) +
                             "; must be from 0 to 1: a gel cannot pass more than it gets");
            return false;
        }
    }
    if (points.front().nm <= kMustBegin && points.back().nm >= kMustEnd) return true;
    problems.add(points.front().place,
                 "",
                 "the table goes from " + number_text(points.front().nm) + " to " +
                     number_text(points.back().nm) + " nm; must reach from " +
                     number_text(kMustBegin) + " to " + number_text(kMustEnd) + " nm or further");
    return false;
}

// Straight lines between the points, the ends held.
double value_at(const std::vector<SpectrumPoint>& points, double nm) {
    const auto next = std::find_if(
        points.begin(), points.end(), [&](const SpectrumPoint& p) { return p.nm > nm; });
    if (next == points.begin()) return points.front().value;
    if (next == points.end()) return points.back().value;
    const SpectrumPoint& last = *(next - 1);
    return std::lerp(last.value, next->value, (nm - last.nm) / (next->nm - last.nm));
}

}  // namespace

Gel build_gel(const GelDescription& description, const Fixture& fixture, Problems& problems) {
    Gel gel;
    gel.stops = checked_stops(description.stops, problems);
    gel.shift_mired = checked_shift(description.shift_mired, fixture, problems);
    if (!description.file.given) return gel;
    if (description.shift_mired.written) {
        problems.add(description.file.place,
                     description.file.key,
                     "stands beside shift_mired; give one of the two");
        return gel;
    }
    const std::vector<SpectrumPoint> points =
        read_spectrum(path_named_by(description.file), problems);
    if (!points.empty() && check_points(points, problems)) {
        gel.spectrum = Curve([&](double nm) { return value_at(points, nm); });
    }
    return gel;
}

}  // namespace dapple
