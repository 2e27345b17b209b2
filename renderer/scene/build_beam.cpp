#include "scene/build_beam.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/defaults.h"

namespace dapple {

namespace {

constexpr double kMaxOutput = 1e9;  // lm, cd or lx

// Fields that a fixture of this kind has no use for.
void note_no_beam(const FixtureDescription& description,
                  const std::string& why,
                  Problems& problems) {
    note_unused(description.beam_angle_deg, why, problems);
    note_unused(description.field_angle_deg, why, problems);
    note_unused(description.focus, why, problems);
    note_unused(description.focus_word, why, problems);
    note_unused(description.beam_range_deg, why, problems);
    note_unused(description.field_range_deg, why, problems);
    note_unused(description.output_range_lm, why, problems);
    if (description.wide_angle.given) {
        problems.note(
            description.wide_angle.place, description.wide_angle.label, "is not used: " + why);
    }
}

bool is_angle(double degrees) {
    return degrees > 0 && degrees < 180;
}

void set_beam(double beam_angle, double field_angle, Fixture& fixture) {
    fixture.beam_angle = static_cast<float>(radians_from_degrees(beam_angle));
    fixture.field_angle = static_cast<float>(radians_from_degrees(field_angle));
}

// The field angle of a beam that has one width, as written or by rule.
double field_of(const Field<double>& field, double beam_angle, Problems& problems) {
    const double soft = std::min(kFieldPerBeam * beam_angle, 0.5 * (beam_angle + 180));
    if (!field.given) return soft;
    if (field.value > beam_angle && field.value < 180) return field.value;
    add_problem(
        field, "above the beam angle, " + number_text(beam_angle) + ", and below 180", problems);
    return soft;
}

void build_one_beam(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const Field<double>& beam = description.beam_angle_deg;
    check_written(beam, "form \"spot\" needs it", problems);
    if (beam.given && !is_angle(beam.value)) {
        add_problem(beam, "above 0 and below 180", problems);
        return set_beam(kBeamAngle, kFieldPerBeam * kBeamAngle, fixture);
    }
    const double beam_angle = beam.given ? beam.value : kBeamAngle;
    const bool beam_is_wrong = beam.written && !beam.given;  // and is told already
    const double field_angle = field_of(
        beam_is_wrong ? Field<double>() : description.field_angle_deg, beam_angle, problems);
    set_beam(beam_angle, field_angle, fixture);
}

// ---- Focus -------------------------------------------------------------------------------------

// Both ends of a range that a focusing fixture has.
bool check_range(const Field<Pair>& range, Problems& problems) {
    const auto [spot, flood] = range.value;
    if (is_angle(spot) && is_angle(flood) && spot < flood) return true;
    problems.add(range.place,
                 range.key,
                 "is [" + number_text(spot) + ", " + number_text(flood) +
                     "]; must be [spot, flood], rising, above 0 and below 180");
    return false;
}

const std::vector<std::pair<std::string, double>> kFocusWords{{"spot", 0.0}, {"flood", 1.0}};

// Where in the range the fixture is set: 0 spot, 1 flood.
double focus_of(const FixtureDescription& description, Problems& problems) {
    const Field<double>& beam = description.beam_angle_deg;
    const bool has_focus = description.focus.written || description.focus_word.written;
    if (!beam.given) {
        if (description.focus.given) return checked_range(description.focus, 1, 0, 1, problems);
        return checked_word(description.focus_word, kFocusWords, 1.0, problems);
    }
    if (has_focus) {
        problems.add(beam.place, beam.key, "stands beside focus; give one of the two");
        return 1;
    }
    const auto [spot, flood] = description.beam_range_deg.value;
    if (beam.value >= spot && beam.value <= flood) return (beam.value - spot) / (flood - spot);
    add_problem(beam,
                "from " + number_text(spot) + " to " + number_text(flood) +
                    ", the fixture's beam_range_deg",
                problems);
    return 1;
}

double at_focus(const Pair& range, double focus) {
    return std::lerp(range[0], range[1], focus);
}

bool is_focusing(const FixtureDescription& description) {
    return description.beam_range_deg.given;
}

void build_focused_beam(const FixtureDescription& description,
                        Fixture& fixture,
                        Problems& problems) {
    set_beam(kBeamAngle, kFieldPerBeam * kBeamAngle, fixture);
    const Pair& range = description.beam_range_deg.value;
    if (!check_range(description.beam_range_deg, problems)) return;
    const double focus = focus_of(description, problems);
    const double beam_angle = at_focus(range, focus);
    const Field<Pair>& fields = description.field_range_deg;
    if (!fields.given) {
        return set_beam(
            beam_angle, field_of(description.field_angle_deg, beam_angle, problems), fixture);
    }
    for (size_t i = 0; i < 2; ++i) {
        if (fields.value[i] > range[i] && fields.value[i] < 180) continue;
        problems.add(fields.place,
                     fields.key,
                     "has " + number_text(fields.value[i]) + "; must be above the beam there, " +
                         number_text(range[i]) + ", and below 180");
        return;
    }
    set_beam(beam_angle, at_focus(fields.value, focus), fixture);
}

void check_no_focus(const FixtureDescription& description, Problems& problems) {
    const auto needs_range = [&](const auto& field) {
        if (!field.written) return;
        problems.add(field.place, field.key, "needs beam_range_deg = [spot, flood] beside it");
    };
    if (description.beam_range_deg.written) return;  // wrong, and told already
    needs_range(description.focus);
    needs_range(description.focus_word);
    needs_range(description.field_range_deg);
    needs_range(description.output_range_lm);
}

// ---- Wide-angle attachment
// -----------------------------------------------------------------------

constexpr double kMostWide = 10;
constexpr double kMostLoss = 10;  // stops

void build_wide_angle(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const WideAngleDescription& wide = description.wide_angle;
    if (!wide.given) return;
    check_written(wide.factor, "give the factor on the beam angle", problems);
    const double factor = checked_range(wide.factor, 1, 1, kMostWide, problems);
    const double loss = checked_range(wide.loss_stops, 0, 0, kMostLoss, problems);
    const double beam = factor * degrees_from_radians(fixture.beam_angle);
    if (!(beam < 180)) {
        problems.add(wide.factor.place,
                     wide.factor.key,
                     "makes a beam of " + number_text(beam) + " degrees; must stay below 180");
        return;
    }
    const double field = factor * degrees_from_radians(fixture.field_angle);
    fixture.wide_beam_angle = static_cast<float>(radians_from_degrees(beam));
    fixture.wide_field_angle =
        static_cast<float>(radians_from_degrees(std::min(field, 0.5 * (beam + 180))));
    fixture.wide_passes = static_cast<float>(std::exp2(-loss));
}

}  // namespace

void build_beam(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    if (description.photometry.written || fixture.form != FixtureForm::kSpot) {
        note_no_beam(description,
                     description.photometry.written ? "the photometric file has its own beam"
                                                    : "only form \"spot\" has a beam",
                     problems);
        return set_beam(kBeamAngle, kFieldPerBeam * kBeamAngle, fixture);
    }
    if (is_focusing(description)) {
        build_focused_beam(description, fixture, problems);
    } else {
        check_no_focus(description, problems);
        build_one_beam(description, fixture, problems);
    }
    build_wide_angle(description, fixture, problems);
}

namespace {

void check_one_output(const FixtureDescription& description, bool focuses, Problems& problems) {
    const int outputs = static_cast<int>(description.output_lm.written) +
                        static_cast<int>(focuses && description.output_range_lm.written) +
                        static_cast<int>(description.peak_cd.written) +
                        static_cast<int>(description.lux.given);
    if (outputs == 1) return;
    if (outputs == 0 && description.photometry.written) return;
    // The place of the first output after the first, where there is one.
    const Place& place = description.lux.given         ? description.lux.place
                         : description.peak_cd.written ? description.peak_cd.place
                                                       : description.place;
    problems.add(place,
                 description.label,
                 (outputs == 0 ? std::string("has no output")
                               : "has " + std::to_string(outputs) + " outputs") +
                     "; give exactly one of output_lm, peak_cd, lux = { value, at_m }");
}

// Candela and lux are of one beam, lumens are of all.
void check_output_of_focusing(const FixtureDescription& description, Problems& problems) {
    const auto fail = [&](const Place& place, const std::string& key) {
        problems.add(place,
                     key,
                     "is of one beam; with beam_range_deg give output_lm, the same for all, or "
                     "output_range_lm = [spot, flood]");
    };
    if (description.peak_cd.written) fail(description.peak_cd.place, description.peak_cd.key);
    if (description.lux.given) fail(description.lux.place, description.lux.label);
}

double focused_lumens(const FixtureDescription& description,
                      const Fixture& fixture,
                      Problems& problems) {
    const Field<Pair>& range = description.output_range_lm;
    for (const double lumens : range.value) {
        if (lumens > 0 && lumens <= kMaxOutput) continue;
        problems.add(range.place,
                     range.key,
                     "has " + number_text(lumens) + "; both must be above 0, up to " +
                         number_text(kMaxOutput));
        return 1;
    }
    const auto [spot, flood] = description.beam_range_deg.value;
    const double beam = degrees_from_radians(fixture.beam_angle);
    return at_focus(range.value, std::clamp((beam - spot) / (flood - spot), 0.0, 1.0));
}

bool shines_along_axis(const Photometry& photometry) {
    return photometry.polar.front() == 0 && photometry.candela.front() > 0;
}

void build_lux(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const LuxDescription& lux = description.lux;
    check_written(lux.value, "give the illuminance in lx", problems);
    check_written(lux.at_m, "give the distance in metres", problems);
    fixture.output_value = checked_positive(lux.value, 0, kMaxOutput, problems);
    fixture.output_distance = checked_positive(lux.at_m, 1, 1e4, problems);
    if (fixture.photometry && !shines_along_axis(*fixture.photometry)) {
        problems.add(lux.place,
                     lux.label,
                     "is on the axis, where the photometric file has no light; use output_lm");
    }
}

}  // namespace

void build_output(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const bool focuses = is_focusing(description) && fixture.form == FixtureForm::kSpot &&
                         !description.photometry.written;
    check_one_output(description, focuses, problems);
    if (focuses) check_output_of_focusing(description, problems);
    if (focuses && description.output_range_lm.given) {
        fixture.output = OutputKind::kLumens;
        fixture.output_value = focused_lumens(description, fixture, problems);
    } else if (description.output_lm.written) {
        fixture.output = OutputKind::kLumens;
        fixture.output_value = checked_positive(description.output_lm, 0, kMaxOutput, problems);
    } else if (description.peak_cd.written) {
        fixture.output = OutputKind::kPeakCandela;
        fixture.output_value = checked_positive(description.peak_cd, 0, kMaxOutput, problems);
    } else if (description.lux.given) {
        fixture.output = OutputKind::kLux;
        build_lux(description, fixture, problems);
    } else if (fixture.photometry) {
        fixture.output = OutputKind::kPhotometry;
    }
}

}  // namespace dapple
