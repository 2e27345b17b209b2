#include "output/packing_list_text.h"

#include <algorithm>
#include <cmath>

#include "base/number_words.h"
#include "base/units.h"
#include "output/json_parts.h"
#include "output/meter_targets_text.h"
#include "output/packing_list_json.h"
#include "output/text_table.h"
#include "scene/fixtures/gel_in_words.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;
using Rows = std::vector<std::vector<std::string>>;

const char* form_word(FixtureForm form) {
    switch (form) {
        case FixtureForm::kSpot:
            return "spot";
        case FixtureForm::kBare:
            return "bare";
        case FixtureForm::kPanel:
            break;
    }
    return "panel";
}

const char* source_word(SourceKind source) {
    switch (source) {
        case SourceKind::kLed:
            return "led";
        case SourceKind::kTungsten:
            return "tungsten";
        case SourceKind::kDaylight:
            return "daylight";
        case SourceKind::kFlat:
            break;
    }
    return "flat";
}

const char* supply_word(Supply supply) {
    return supply == Supply::kBattery ? "battery" : "mains";
}

// Rounded to a tenth of a millimetre, the accuracy of the floats.
Json metres(double x) {
    return std::round(x * 1e4) / 1e4;
}
Json rounded(double x, double steps) {
    return json_number(std::round(x * steps) / steps);
}
Json point_json(const std::optional<Point>& p) {
    if (!p) return nullptr;
    return {metres(p->x), metres(p->y), metres(p->z)};
}
template <class T>
Json or_null(const std::optional<T>& x, double steps) {
    return x ? rounded(*x, steps) : Json(nullptr);
}

Json gel_json(const Gel& gel) {
    if (!gel.is_there()) return nullptr;
    return {{"shift_mired", gel.shift_mired},
            {"stops", gel.stops},
            {"own_sheet", gel.spectrum.has_value()}};
}

Json fixture_json(const PackedFixture& f) {
    Json meets = Json::array();
    for (const MetOnAxis& met : f.meets) {
        meets.push_back({{"name", met.name}, {"distance_m", metres(met.distance)}});
    }
    return {{"name", f.name},
            {"form", form_word(f.form)},
            {"source", source_word(f.source)},
            {"position", point_json(f.position)},
            {"height_m", or_null(f.height, 1e4)},
            {"aim", point_json(f.aim)},
            {"meets", meets},
            {"beam_angle_deg",
             f.beam_angle ? rounded(degrees_from_radians(*f.beam_angle), 100) : Json(nullptr)},
            {"full_lumens", rounded(f.full_lumens, 10)},
            {"full_cct_k", rounded(f.full_cct_k, 1)},
            {"lumens", rounded(f.lumens, 10)},
            {"peak_cd", rounded(f.peak_candela, 10)},
            {"cct_k", rounded(f.cct_k, 1)},
            {"duv", rounded(f.duv, 1e4)},
            {"gel", gel_json(f.gel)},
            {"dimmer", rounded(f.dimmer, 1e4)},
            {"power_w", or_null(f.power_w, 10)},
            {"supply", supply_word(f.supply)},
            {"current_a", or_null(f.current_a, 1000)},
            {"circuit", f.circuit.empty() ? Json(nullptr) : Json(f.circuit)}};
}

Json circuit_json(const CircuitLoad& c) {
    return {{"name", c.name.empty() ? Json(nullptr) : Json(c.name)},
            {"fixtures", c.fixtures},
            {"power_w", rounded(c.power_w, 10)},
            {"current_a", rounded(c.current_a, 1000)},
            {"without_power_w", c.without_power},
            {"share_of_circuit_a", or_null(c.share, 1e4)}};
}

std::string place_text(const Point& p) {
    return formatted("%6.2f %6.2f %6.2f",
                     static_cast<double>(p.x),
                     static_cast<double>(p.y),
                     static_cast<double>(p.z));
}

std::string meets_text(const PackedFixture& f) {
    if (f.form == FixtureForm::kBare) return "";
    std::string text;
    for (const MetOnAxis& met : f.meets) {
        text += (text.empty() ? "" : ", ") + met.name + formatted(" %.2f", met.distance);
    }
    return text.empty() ? "nothing" : text;
}

std::string gel_text(const Gel& gel) {
    std::string text;
    if (gel.spectrum) text = "own sheet";
    if (gel.shift_mired != 0) text = formatted("%+.0f mired", gel.shift_mired);
    if (gel.stops != 0) text += (text.empty() ? "" : ", ") + formatted("%.3g stops", gel.stops);
    const std::string name = gel.spectrum ? "" : name_of_gel(gel.shift_mired);
    return name.empty() ? text : name + ": " + text;
}

std::string light_text(double value) {
    return round_number(value, 3);
}

Rows stand_rows(const PackingList& list) {
    Rows rows = {{"fixture", "form", "     x      y      z", "up", "     aim", "meets at m"}};
    for (const PackedFixture& f : list.fixtures) {
        rows.push_back({f.name,
                        form_word(f.form),
                        place_text(f.position),
                        f.height ? formatted("%.2f", *f.height) : "",
                        f.aim ? place_text(*f.aim) : "",
                        meets_text(f)});
    }
    return rows;
}

// "4300 K", "3200 K, as set 2870 K", or with "Duv +0.005" where an eye could see it.
std::string colour_text(const PackedFixture& f) {
    const std::string full =
        has_other_colour(f) ? formatted("%.0f K, as set ", f.full_cct_k) : std::string();
    const std::string cct = full + formatted("%.0f K", f.cct_k);
    return std::abs(f.duv) < 0.0005 ? cct : cct + ", Duv " + signed_number(f.duv, 3);
}

Rows light_rows(const PackingList& list) {
    Rows rows = {{"fixture",
                  "source",
                  "beam",
                  "lm at full",
                  "lm as set",
                  "peak cd as set",
                  "colour",
                  "dimmer",
                  "gel"}};
    for (const PackedFixture& f : list.fixtures) {
        rows.push_back({f.name,
                        source_word(f.source),
                        f.beam_angle ? formatted("%.0f°", degrees_from_radians(*f.beam_angle)) : "",
                        light_text(f.full_lumens),
                        light_text(f.lumens),
                        light_text(f.peak_candela),
                        colour_text(f),
                        formatted("%.0f %%", 100 * f.dimmer),
                        gel_text(f.gel)});
    }
    return rows;
}

std::string light_note(const PackingList& list) {
    const bool warms =
        std::any_of(list.fixtures.begin(), list.fixtures.end(), [](const PackedFixture& f) {
            return f.source == SourceKind::kTungsten && f.dimmer < 1 && has_other_colour(f);
        });
    return std::string("as set: with its dimmer and its gel.") +
           (warms ? " Tungsten that is dimmed is warmer than at full.\n" : "\n");
}

Rows power_rows(const PackingList& list) {
    Rows rows = {{"fixture", "supply", "power", formatted("at %g V", list.volts), "circuit"}};
    for (const PackedFixture& f : list.fixtures) {
        rows.push_back({f.name,
                        supply_word(f.supply),
                        f.power_w ? formatted("%g W", *f.power_w) : "not given",
                        f.current_a ? formatted("%.2f A", *f.current_a) : "",
                        f.circuit});
    }
    return rows;
}

Rows circuit_rows(const PackingList& list) {
    Rows rows = {{"circuit", "fixtures", "power", "current", "of what it may carry"}};
    for (const CircuitLoad& c : list.circuits) {
        rows.push_back({c.name.empty() ? "mains" : c.name,
                        std::to_string(c.fixtures.size()),
                        formatted("%g W", c.power_w),
                        formatted("%.2f A", c.current_a),
                        c.share ? formatted("%.0f %% of %g A", 100 * *c.share, *list.circuit_a)
                                : "circuit_a not given"});
    }
    return rows;
}

Rows carry_rows(const std::vector<CarryItem>& carry) {
    const bool any_counted =
        std::any_of(carry.begin(), carry.end(), [](const CarryItem& i) { return i.have; });
    Rows rows = {{"number", "what"}};
    if (any_counted) rows[0].insert(rows[0].end(), {"in your kit", "missing"});
    for (const CarryItem& item : carry) {
        rows.push_back({std::to_string(item.count), item.name});
        if (!any_counted) continue;
        rows.back().push_back(item.have ? std::to_string(*item.have) : "");
        rows.back().push_back(missing(item) > 0 ? std::to_string(missing(item)) : "");
    }
    return rows;
}

// Each advice once, and below it the fixtures and circuits that need it.
std::string cautions_text(const PackingList& list) {
    if (list.cautions.empty()) return "";
    std::vector<std::string> advices;
    for (const Caution& c : list.cautions) {
        const std::string advice = c.kind + ": " + c.advice;
        if (std::find(advices.begin(), advices.end(), advice) == advices.end()) {
            advices.push_back(advice);
        }
    }
    std::string text = "Take care\n";
    for (const std::string& advice : advices) {
        text += "- " + advice + "\n";
        for (const Caution& c : list.cautions) {
            if (c.kind + ": " + c.advice == advice) text += "    " + c.about + ": " + c.what + "\n";
        }
    }
    return text + "\n";
}

constexpr const char* kNote =
    "General words, no safety calculation: the makers' instructions, local codes and licensed "
    "practice come first.";

}  // namespace

Json packing_list_json(const PackingList& list) {
    Json fixtures = Json::array();
    for (const PackedFixture& f : list.fixtures) fixtures.push_back(fixture_json(f));
    Json circuits = Json::array();
    for (const CircuitLoad& c : list.circuits) circuits.push_back(circuit_json(c));
    Json cautions = Json::array();
    for (const Caution& c : list.cautions) {
        cautions.push_back(
            {{"kind", c.kind}, {"about", c.about}, {"what", c.what}, {"advice", c.advice}});
    }
    return {{"title", list.title},
            {"volts", list.volts},
            {"circuit_a", or_null(list.circuit_a, 1000)},
            {"fixtures", fixtures},
            {"circuits", circuits},
            {"cautions", cautions},
            {"note", kNote}};
}

std::string packing_list_table_text(const DaySheet& sheet) {
    const PackingList& list = sheet.list;
    std::string text = list.title.empty() ? "" : list.title + "\n\n";
    text += "Positions, m\n" + table_text(stand_rows(list)) + "\n";
    text += "Light\n" + table_text(light_rows(list)) + light_note(list) + "\n";
    text += "Power\n" + table_text(power_rows(list)) + "\n";
    if (!list.circuits.empty()) text += table_text(circuit_rows(list)) + "\n";
    if (!sheet.carry.empty()) text += "To carry\n" + table_text(carry_rows(sheet.carry)) + "\n";
    text += meter_targets_text(sheet);
    return text + cautions_text(list) + kNote + "\n";
}

}  // namespace dapple
