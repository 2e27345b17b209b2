// [[fixture]] to Fixture: degrees to radians, millimetres to metres, exactly one output.
#include <algorithm>
#include <cctype>
#include <filesystem>
#include <map>
#include <system_error>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/scene_parts.h"
#include "spectrum/led.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, FixtureForm>> kForms{
    {"spot", FixtureForm::kSpot}, {"bare", FixtureForm::kBare}, {"panel", FixtureForm::kPanel}};

const std::vector<std::pair<std::string, SourceKind>> kSources{{"led", SourceKind::kLed},
                                                               {"tungsten", SourceKind::kTungsten},
                                                               {"daylight", SourceKind::kDaylight},
                                                               {"flat", SourceKind::kFlat}};

const std::vector<std::pair<std::string, Supply>> kSupplies{{"mains", Supply::kMains},
                                                            {"battery", Supply::kBattery}};

constexpr double kMaxOutput = 1e9;  // lm, cd or lx

struct CctRange {
    double low, high;
};

// What the sources of these kinds can be (K); `flat` ignores it.
CctRange cct_range(SourceKind source) {
    switch (source) {
        case SourceKind::kTungsten:
            return {1500, 3600};  // tungsten melts at 3695 K
        case SourceKind::kLed:
            return {kLedMinCct, kLedMaxCct};
        case SourceKind::kDaylight:
            return {4000, 25000};  // CIE 15, the daylight locus
        default:
            return {1000, 25000};
    }
}

// A fixture's name names layers of the EXR and entries of the statistics.
void check_name(const FixtureDescription& description,
                std::map<std::string, Place>& names,
                Problems& problems) {
    static const std::vector<std::string> taken{
        "luminance", "albedo", "normal", "depth", "surface"};
    const Field<std::string>& name = description.name;
    if (!check_written(name, "a fixture needs a name", problems)) return;
    const auto is_control = [](unsigned char c) { return std::iscntrl(c) != 0; };
    if (name.value.empty() || name.value.find('.') != std::string::npos ||
        std::any_of(name.value.begin(), name.value.end(), is_control)) {
        problems.add(name.place,
                     name.key,
                     "names layers of the picture; must not be empty nor contain a full stop or "
                     "control characters");
    } else if (std::find(taken.begin(), taken.end(), name.value) != taken.end()) {
        problems.add(name.place, name.key, "is the name of another layer; choose a different one");
    }
    const auto [earlier, is_new] = names.emplace(name.value, name.place);
    if (!is_new) {
        problems.add(name.place,
                     name.key,
                     "is used by two fixtures, the first in line " +
                         std::to_string(earlier->second.line) + "; names must differ");
    }
}

void note_unused(const Field<double>& field, const std::string& why, Problems& problems) {
    if (field.written) problems.note(field.place, field.key, "is not used: " + why);
}

void build_beam(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const Field<double>& beam = description.beam_angle_deg;
    const Field<double>& field = description.field_angle_deg;
    if (fixture.form != FixtureForm::kSpot) {
        note_unused(beam, "only form \"spot\" has a beam", problems);
        note_unused(field, "only form \"spot\" has a beam", problems);
        return;
    }
    if (!description.photometry.written) check_written(beam, "form \"spot\" needs it", problems);
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

void build_output(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    const int outputs = static_cast<int>(description.output_lm.written) +
                        static_cast<int>(description.peak_cd.written) +
                        static_cast<int>(description.lux.given);
    const std::string key = description.label;
    if (outputs != 1) {
        // The place of the first output after the first, where there is one.
        const Place& place = description.lux.given         ? description.lux.place
                             : description.peak_cd.written ? description.peak_cd.place
                                                           : description.place;
        problems.add(place,
                     key,
                     (outputs == 0 ? std::string("has no output")
                                   : "has " + std::to_string(outputs) + " outputs") +
                         "; give exactly one of output_lm, peak_cd, lux = { value, at_m }");
    }
    if (description.output_lm.written) {
        fixture.output = OutputKind::kLumens;
        fixture.output_value = checked_positive(description.output_lm, 0, kMaxOutput, problems);
    } else if (description.peak_cd.written) {
        fixture.output = OutputKind::kPeakCandela;
        fixture.output_value = checked_positive(description.peak_cd, 0, kMaxOutput, problems);
    } else if (description.lux.given) {
        fixture.output = OutputKind::kLux;
        check_written(description.lux.value, "give the illuminance in lx", problems);
        check_written(description.lux.at_m, "give the distance in metres", problems);
        fixture.output_value = checked_positive(description.lux.value, 0, kMaxOutput, problems);
        fixture.output_distance = checked_positive(description.lux.at_m, 1, 1e4, problems);
    }
}

void build_source(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    fixture.source = checked_word(description.source, kSources, fixture.source, problems);
    const CctRange range = cct_range(fixture.source);
    fixture.cct_k = static_cast<float>(checked_range(
        description.cct_k, default_cct(fixture.source), range.low, range.high, problems));
    fixture.duv =
        static_cast<float>(checked_range(description.duv, 0, -kLedMaxDuv, kLedMaxDuv, problems));
    if (fixture.source != SourceKind::kLed && fixture.duv != 0) {
        note_unused(description.duv, "only source \"led\" has it", problems);
    }
    if (fixture.source == SourceKind::kFlat) {
        note_unused(description.cct_k, "source \"flat\" has equal energy", problems);
    }
}

bool is_source_word(const std::string& word) {
    return std::any_of(
        kSources.begin(), kSources.end(), [&](const auto& source) { return source.first == word; });
}

void build_dimmer(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    fixture.dimmer = static_cast<float>(checked_range(description.dimmer, 1, 0, 1, problems));
    const Field<bool>& warms = description.dimmer_warms;
    if (warms.given) fixture.dimmer_warms = warms.value;
    const bool source_is_wrong =  // and is told already
        description.source.written && !is_source_word(description.source.value);
    if (warms.written && fixture.source != SourceKind::kTungsten && !source_is_wrong) {
        problems.add(warms.place,
                     warms.key,
                     "belongs to source \"tungsten\"; leave it out: others keep their colour");
    }
}

// The apparent source and the body around it.
void build_body(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    if (fixture.form == FixtureForm::kPanel) {
        check_written(description.panel_m, "form \"panel\" needs it: [width, height]", problems);
        fixture.panel_size = checked_size(description.panel_m, Vec2(1), 100, problems);
        note_unused(description.source_mm, "a panel's face is panel_m", problems);
    } else {
        if (description.panel_m.written) {
            problems.add(description.panel_m.place,
                         description.panel_m.key,
                         "belongs to form \"panel\"; use source_mm here");
        }
        const double source_mm =
            checked_range(description.source_mm, 1e3 * kSourceDiameter, 0, 1e4, problems);
        fixture.source_diameter = static_cast<float>(metres_from_mm(source_mm));
    }
    if (!description.housing_mm.given) return;
    const Vec2 housing = 1e-3F * checked_size(description.housing_mm, Vec2(0), 1e4, problems);
    fixture.housing_diameter = housing.x;
    fixture.housing_length = housing.y;
    if (fixture.form == FixtureForm::kSpot && housing.x > 0 &&
        housing.x < fixture.source_diameter) {
        problems.add(description.housing_mm.place,
                     description.housing_mm.key,
                     "is " + number_text(1e3 * housing.x) +
                         " across; must not be narrower than source_mm, " +
                         number_text(1e3 * fixture.source_diameter));
    }
}

void build_controls(const FixtureDescription& description, Fixture& fixture, Problems& problems) {
    fixture.gel_shift_mired =
        static_cast<float>(checked_range(description.gel.shift_mired, 0, -500, 500, problems));
    fixture.gel_stops =
        static_cast<float>(checked_range(description.gel.stops, 0, 0, 16, problems));
    fixture.power_w = static_cast<float>(checked_range(description.power_w, 0, 0, 1e5, problems));
    fixture.supply = checked_word(description.supply, kSupplies, fixture.supply, problems);
}

// Read by later work; checked now so that a set does not break then.
void check_attachments(const FixtureDescription& description,
                       const std::string& set_path,
                       Problems& problems) {
    const Field<std::string>& file = description.photometry;
    std::error_code code;
    if (file.given && !std::filesystem::is_regular_file(path_beside(set_path, file.value), code)) {
        problems.add(file.place, file.key, "is \"" + file.value + "\"; there is no such file");
    }
    if (!description.barn_doors_deg.given) return;
    for (const double angle : description.barn_doors_deg.value) {
        if (angle >= 0 && angle <= 90) continue;
        problems.add(description.barn_doors_deg.place,
                     description.barn_doors_deg.key,
                     "has " + number_text(angle) + "; must be from 0 (shut) to 90 (open)");
        break;
    }
}

Fixture build_fixture(const FixtureDescription& description,
                      const std::string& set_path,
                      Problems& problems) {
    Fixture fixture;
    fixture.name = description.name.value;
    fixture.form = checked_word(description.form, kForms, fixture.form, problems);
    fixture.position = checked_point(description.position, problems);
    fixture.place = description.position.written ? description.position.place : description.place;
    if (fixture.form != FixtureForm::kBare || description.aim.written) {
        fixture.axis =
            checked_aim(description.aim, description.position, "the fixture aims", problems);
    }
    build_source(description, fixture, problems);
    build_beam(description, fixture, problems);
    build_output(description, fixture, problems);
    build_body(description, fixture, problems);
    build_dimmer(description, fixture, problems);
    build_controls(description, fixture, problems);
    check_attachments(description, set_path, problems);
    return fixture;
}

}  // namespace

void build_fixtures(const SetDescription& set, Scene& scene, Problems& problems) {
    std::map<std::string, Place> names;
    for (const FixtureDescription& description : set.fixtures) {
        check_name(description, names, problems);
        scene.fixtures.push_back(build_fixture(description, set.path, problems));
    }
    if (set.fixtures.empty() && set.windows.empty() && !set.lacks_kit) {
        problems.add(
            {set.path}, "fixture", "is missing; nothing lights the set: add a [[fixture]]");
    }
}

}  // namespace dapple
