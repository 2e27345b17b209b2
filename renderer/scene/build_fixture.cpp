// [[fixture]] to Fixture: degrees to radians, millimetres to metres, exactly one output.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>

#include "base/units.h"
#include "scene/build_attachments.h"
#include "scene/build_beam.h"
#include "scene/build_gel.h"
#include "scene/build_photometry.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/scene_parts.h"
#include "spectrum/led.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, FixtureForm>> kFixtureForms{
    {"spot", FixtureForm::kSpot}, {"bare", FixtureForm::kBare}, {"panel", FixtureForm::kPanel}};

const std::vector<std::pair<std::string, SourceKind>> kSources{{"led", SourceKind::kLed},
                                                               {"tungsten", SourceKind::kTungsten},
                                                               {"daylight", SourceKind::kDaylight},
                                                               {"flat", SourceKind::kFlat}};

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

// What a photometric file says of its fixture; the set file's own keys come first.
struct FileSays {
    float source_diameter = 0;  // m; 0: nothing
    Vec2 panel_size{0};         // m
};

FileSays read_photometry(const FixtureDescription& description,
                         Fixture& fixture,
                         Problems& problems) {
    FileSays says;
    const Field<std::string>& key = description.photometry;
    if (!key.given) return says;
    if (fixture.form == FixtureForm::kBare) {
        problems.add(key.place,
                     key.key,
                     "belongs to form \"spot\" or \"panel\": form \"bare\" is equal all around");
        return says;
    }
    const std::optional<PhotometricFile> file = build_photometry(key, fixture.axis, problems);
    if (!file) return says;
    fixture.photometry = file->photometry;
    fixture.power_w = static_cast<float>(file->watts);
    const float area = file->opening.x * file->opening.y;
    says.source_diameter = file->round ? file->opening.x : 2 * std::sqrt(area * kInvPiF);
    if (!file->round) says.panel_size = file->opening;
    return says;
}

// The apparent source and the body around it.
void build_body(const FixtureDescription& description,
                const FileSays& file,
                Fixture& fixture,
                Problems& problems) {
    if (fixture.form == FixtureForm::kPanel) {
        const bool file_knows = file.panel_size.x > 0 && file.panel_size.y > 0;
        if (!file_knows) {
            check_written(
                description.panel_m, "form \"panel\" needs it: [width, height]", problems);
        }
        fixture.panel_size = checked_size(
            description.panel_m, file_knows ? file.panel_size : Vec2(1), 100, problems);
        note_unused(description.source_mm, "a panel's face is panel_m", problems);
    } else {
        if (description.panel_m.written) {
            problems.add(description.panel_m.place,
                         description.panel_m.key,
                         "belongs to form \"panel\"; use source_mm here");
        }
        const double source_mm =
            checked_range(description.source_mm,
                          1e3 * (file.source_diameter > 0 ? file.source_diameter : kSourceDiameter),
                          0,
                          1e4,
                          problems);
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

Fixture build_fixture(const FixtureDescription& description, Problems& problems) {
    Fixture fixture;
    fixture.name = description.name.value;
    fixture.form = checked_word(description.form, kFixtureForms, fixture.form, problems);
    fixture.position = checked_point(description.position, problems);
    fixture.place = description.position.written ? description.position.place : description.place;
    if (fixture.form != FixtureForm::kBare || description.aim.written) {
        fixture.axis =
            checked_aim(description.aim, description.position, "the fixture aims", problems);
        const Triple& aim = description.aim.value;
        fixture.aim = Point(aim[0], aim[1], aim[2]);
    }
    fixture.turn = static_cast<float>(
        radians_from_degrees(checked_range(description.turn_deg, 0, -3600, 3600, problems)));
    build_source(description, fixture, problems);
    const FileSays file = read_photometry(description, fixture, problems);
    build_beam(description, fixture, problems);
    build_output(description, fixture, problems);
    build_body(description, file, fixture, problems);
    build_dimmer(description, fixture, problems);
    fixture.gel = build_gel(description.gel, fixture, problems);
    build_attachments(description, fixture, problems);
    build_supply(description, fixture, problems);
    return fixture;
}

}  // namespace

void build_fixtures(const SetDescription& set, Scene& scene, Problems& problems) {
    std::map<std::string, Place> names;
    for (const FixtureDescription& description : set.fixtures) {
        check_name(description, names, problems);
        scene.fixtures.push_back(build_fixture(description, problems));
    }
    scene.power = build_power(set.power, problems);
    if (set.fixtures.empty() && set.windows.empty() && !set.lacks_kit) {
        problems.add(
            {set.path}, "fixture", "is missing; nothing lights the set: add a [[fixture]]");
    }
}

}  // namespace dapple
