#include "rebalance/settings.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "base/written_number.h"
#include "rebalance/layer_changes.h"
#include "scene/checks.h"
#include "scene/fixtures/gel_in_words.h"
#include "scene/fixtures/source_limits.h"
#include "spectrum/led.h"

namespace dapple {

namespace {

constexpr double kMostDimmer = 1000;  // more is a slip of the finger

struct Setting {
    std::string text;  // as written
    std::string key;
    double value = 0;
};

// One option's problems and notes.
class Reports {
  public:
    Reports(const Setting& setting, Problems& problems) : setting_(setting), problems_(problems) {}

    void add(const std::string& allowed) const {
        problems_.add({"--set " + setting_.text},
                      "",
                      "is " + number_text(setting_.value) + "; must be " + allowed);
    }
    void note(const std::string& message) const {
        problems_.note({"--set " + setting_.text}, "", message);
    }
    // Whether the value is in the range.
    bool in_range(double low, double high) const {
        if (setting_.value >= low && setting_.value <= high) return true;
        add("from " + number_text(low) + " to " + number_text(high));
        return false;
    }

  private:
    const Setting& setting_;
    Problems& problems_;
};

void set_dimmer(Fixture& f, double value, const Reports& reports) {
    if (!reports.in_range(0, kMostDimmer)) return;
    if (value > 1) reports.note("is more than the fixture has; its dimmer ends at 1");
    f.dimmer = static_cast<float>(value);
}

void set_cct(Fixture& f, double value, const Reports& reports) {
    const CctRange range = f.is_window ? kWindowCctRange : cct_range(f.source);
    if (f.source == SourceKind::kFlat) {
        reports.add("left out: source \"flat\" has equal energy");
    } else if (reports.in_range(range.low, range.high)) {
        if (f.is_window) {
            f.source = window_source(value);
        } else if (f.source != SourceKind::kLed) {
            reports.note("is another lamp: this fixture cannot change its colour");
        }
        f.cct_k = static_cast<float>(value);
    }
}

void set_duv(Fixture& f, double value, const Reports& reports) {
    if (f.source != SourceKind::kLed) {
        reports.add("left out: only source \"led\" has it");
    } else if (reports.in_range(-kLedMaxDuv, kLedMaxDuv)) {
        f.duv = static_cast<float>(value);
    }
}

void set_shift(Fixture& f, double value, const Reports& reports) {
    const GelRange range = gel_shift_range(f);
    if (!reports.in_range(range.least, range.most)) return;
    if (f.gel.spectrum) reports.note("replaces the filter of the gel's file");
    f.gel.spectrum.reset();
    f.gel.shift_mired = value;
}

void set_stops(Fixture& f, double value, const Reports& reports) {
    if (reports.in_range(0, kMostGelStops)) f.gel.stops = value;
}

struct Key {
    const char* name;
    void (*set)(Fixture&, double, const Reports&);
};
constexpr Key kKeys[] = {{"dimmer", set_dimmer},
                         {"cct_k", set_cct},
                         {"duv", set_duv},
                         {"gel.shift_mired", set_shift},
                         {"gel.stops", set_stops}};

std::string trimmed(const std::string& text) {
    const size_t first = text.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

// A sheet by its trade name takes the place of the one that is there.
void set_gel(Fixture& f, const std::string& text, const std::string& words, Problems& problems) {
    const std::optional<GelInWords> sheet = read_gel_words(words);
    if (!sheet) {
        problems.add({"--set " + text},
                     "",
                     "must be such as \"1/4 CTO\", \"full CTB\", \"0.6 ND\" or \"none\"");
        return;
    }
    const Setting shift{text, "gel", sheet->shift_mired};
    const Setting stops{text, "gel", sheet->stops};
    set_shift(f, shift.value, Reports(shift, problems));
    set_stops(f, stops.value, Reports(stops, problems));
}

// The fixture whose name and a full stop begin the text. A window's name may hold a full stop.
std::optional<size_t> fixture_before_stop(const FilmRecord& film, const std::string& text) {
    std::optional<size_t> longest;
    for (size_t f = 0; f < film.fixtures.size(); ++f) {
        const std::string& name = film.fixtures[f].name;
        if (!text.starts_with(name + ".")) continue;
        if (!longest || name.size() > film.fixtures[*longest].name.size()) longest = f;
    }
    return longest;
}

void add_unknown_key(const Setting& setting, Problems& problems) {
    std::vector<std::string> names;
    std::string list;
    for (const Key& key : kKeys) {
        names.emplace_back(key.name);
        list += (list.empty() ? "" : ", ") + names.back();
    }
    names.emplace_back("gel");
    list += ", gel";
    const std::string nearest = nearest_word(setting.key, names);
    problems.add({"--set " + setting.text},
                 "",
                 "has the key \"" + setting.key + "\"; can be set: " + list +
                     (nearest.empty() ? "" : "; did you mean " + nearest + "?"));
}

// Files of variants write "fixture.key.dimmer"; so may this option, where no fixture has that name.
std::string without_table(const FilmRecord& film, const std::string& address) {
    for (const std::string table : {"fixture.", "window."}) {
        if (address.starts_with(table) && !fixture_before_stop(film, address)) {
            return address.substr(table.size());
        }
    }
    return address;
}

// "must be FIXTURE.KEY=NUMBER, such as "moon.dimmer=0.5"", with a fixture of the film.
std::string right_form(const FilmRecord& film) {
    return "must be FIXTURE.KEY=NUMBER, such as \"" +
           (film.fixtures.empty() ? std::string("key") : film.fixtures.front().name) +
           ".dimmer=0.5\"";
}

void apply_set(const FilmRecord& film,
               const std::string& text,
               std::vector<Fixture>& wanted,
               Problems& problems) {
    const size_t equals = text.rfind('=');
    const std::string left = without_table(film, trimmed(text.substr(0, equals)));
    const std::optional<size_t> found = fixture_before_stop(film, left);
    if (!found && equals != std::string::npos && left.find('.') != std::string::npos) {
        find_fixture(film, left.substr(0, left.find('.')), "--set " + text, problems);
        return;
    }
    const std::string key_text =
        found ? left.substr(film.fixtures[*found].name.size() + 1) : std::string();
    if (found && key_text == "gel" && equals != std::string::npos) {
        return set_gel(wanted[*found], text, trimmed(text.substr(equals + 1)), problems);
    }
    const auto value = equals == std::string::npos
                           ? std::nullopt
                           : number_in_words(text.substr(equals + 1),
                                             quantity_of(key_text.substr(key_text.rfind('.') + 1)));
    if (!found || !value) {
        problems.add({"--set " + text}, "", right_form(film));
        return;
    }
    Fixture& fixture = wanted[*found];
    const Setting setting{text, key_text, *value};
    for (const Key& key : kKeys) {
        if (setting.key == key.name) return key.set(fixture, *value, Reports(setting, problems));
    }
    add_unknown_key(setting, problems);
}

// The fixtures that shine in `wanted` but are dark in the film.
void check_light(const FilmRecord& film, const std::vector<Fixture>& wanted, Problems& problems) {
    for (size_t f = 0; f < wanted.size(); ++f) {
        if (!(wanted[f].dimmer > 0) || has_light(film, f)) continue;
        const bool was_dimmed = !(film.fixtures[f].dimmer > 0);
        if (wanted[f].dimmer == film.fixtures[f].dimmer && !was_dimmed) continue;  // a black gel
        problems.add({wanted[f].name},
                     "",
                     "is dark in this film, so there is no light to scale; render the set with its "
                     "dimmer above 0");
    }
}

}  // namespace

std::optional<size_t> find_fixture(const FilmRecord& film,
                                   const std::string& name,
                                   const std::string& option,
                                   Problems& problems) {
    std::vector<std::string> names;
    std::string list;
    for (size_t f = 0; f < film.fixtures.size(); ++f) {
        if (film.fixtures[f].name == name) return f;
        names.push_back(film.fixtures[f].name);
        list += (list.empty() ? "" : ", ") + names.back();
    }
    const std::string nearest = nearest_word(name, names);
    problems.add({option},
                 "",
                 "there is no fixture \"" + name + "\"" +
                     (nearest.empty() ? "; there are " + list : "; did you mean " + nearest + "?"));
    return std::nullopt;
}

std::vector<Fixture> apply_settings(const FilmRecord& film,
                                    const Settings& settings,
                                    Problems& problems) {
    std::vector<Fixture> wanted = film.fixtures;
    for (const std::string& text : settings.set) apply_set(film, text, wanted, problems);
    std::vector<bool> alone(wanted.size(), settings.solo.empty());
    for (const std::string& name : settings.solo) {
        const auto f = find_fixture(film, name, "--solo", problems);
        if (f) alone[*f] = true;
    }
    for (size_t f = 0; f < wanted.size(); ++f) {
        if (!alone[f]) wanted[f].dimmer = 0;
    }
    for (const std::string& name : settings.off) {
        const auto f = find_fixture(film, name, "--off", problems);
        if (f) wanted[*f].dimmer = 0;
    }
    check_light(film, wanted, problems);
    return wanted;
}

}  // namespace dapple
