#include "scene/build_beam.h"

#include <algorithm>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/defaults.h"

namespace dapple {

namespace {

constexpr double kMaxOutput = 1e9;  // lm, cd or lx

// Fields that a fixture of this kind has no use for.
void note_no_beam(const FixtureDescription& description, const char* why, Problems& problems) {
    note_unused(description.beam_angle_deg, why, problems);
    note_unused(description.field_angle_deg, why, problems);
}

void build_angles(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const Field<double>& beam = description.beam_angle_deg;
    const Field<double>& field = description.field_angle_deg;
    check_written(beam, "form \"spot\" needs it", problems);
    double beam_angle = kBeamAngle;
    if (beam.given) {
        beam_angle = beam.value;
        if (!(beam_angle > 0 && beam_angle < 180)) {
            add_problem(beam, "above 0 and below 180", problems);
            return;
        }
    }
    double field_angle = std::min(kFieldPerBeam * beam_angle, 0.5 * (beam_angle + 180));
    const bool beam_is_wrong = beam.written && !beam.given;  // and is told already
    if (field.given && !beam_is_wrong) {
        field_angle = field.value;
        if (!(field_angle > beam_angle && field_angle < 180)) {
            add_problem(field,
                        "above the beam angle, " + number_text(beam_angle) + ", and below 180",
                        problems);
        }
    }
    fixture.beam_angle = static_cast<float>(radians_from_degrees(beam_angle));
    fixture.field_angle = static_cast<float>(radians_from_degrees(field_angle));
}

}  // namespace

void build_beam(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    if (description.photometry.written) {
        note_no_beam(description, "the photometric file has its own beam", problems);
        fixture.beam_angle = static_cast<float>(radians_from_degrees(kBeamAngle));
        fixture.field_angle = static_cast<float>(kFieldPerBeam) * fixture.beam_angle;
    } else if (fixture.form == FixtureForm::kSpot) {
        build_angles(description, fixture, problems);
    } else {
        note_no_beam(description, "only form \"spot\" has a beam", problems);
    }
}

namespace {

void check_one_output(const FixtureDescription& description, Problems& problems) {
    const int outputs = static_cast<int>(description.output_lm.written) +
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
    check_one_output(description, problems);
    if (description.output_lm.written) {
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
