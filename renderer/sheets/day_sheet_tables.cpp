#include "sheets/day_sheet_tables.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "develop/meter_targets.h"

namespace dapple {

namespace {

template <class... Values>
std::string cell(const char* format, Values... values) {
    char text[200];
    std::snprintf(text, sizeof text, format, values...);
    return text;
}

// To the centimetre, or the millimetre where the set file has it.
std::string metres(double x, bool to_cm = false) {
    const double mm = std::round(1000 * x);
    if (to_cm || std::fmod(std::abs(mm), 10) == 0)
        return cell("%.2f", 0.01 * std::round(mm / 10) + 0.0);
    return cell("%.3f", mm / 1000);
}

std::vector<std::string> tape_cells(const std::optional<TapePlace>& place, bool to_cm = false) {
    if (!place) return {"", "", ""};
    const Vec2 across = place->from_walls.value_or(Vec2(place->position.x, place->position.z));
    const std::string height = place->height       ? metres(*place->height, to_cm)
                               : place->from_walls ? "no floor"
                                                   : metres(place->position.y, to_cm);
    return {metres(across.x, to_cm), metres(across.y, to_cm), height};
}

const MeterTarget* find_target(const DaySheet& sheet,
                               const std::string& meter,
                               const std::string& fixture) {
    for (const MeterTarget& target : *sheet.targets) {
        if (target.meter == meter && target.fixture == fixture) return &target;
    }
    return nullptr;
}

// The fixtures in the sheet's order, then the windows, then "", all lights together.
std::vector<std::string> lights_of(const DaySheet& sheet) {
    std::vector<std::string> lights;
    for (const MeterTarget& target : *sheet.targets) {
        if (target.meter == sheet.meters.front() && !target.fixture.empty()) {
            lights.push_back(target.fixture);
        }
    }
    lights.emplace_back();
    return lights;
}

std::string label_of(const DaySheet& sheet, PlaceKind kind, const std::string& name) {
    for (const PlacedThing& place : sheet.places) {
        if (place.kind == kind && place.name == name) return place.label;
    }
    return "";
}

// The label of a thing that stands in the set, but not of a camera or a meter.
std::string label_of_thing(const DaySheet& sheet, const std::string& name) {
    for (const PlaceKind kind : {PlaceKind::kFixture,
                                 PlaceKind::kGlass,
                                 PlaceKind::kCloth,
                                 PlaceKind::kFlag,
                                 PlaceKind::kBounce}) {
        std::string label = label_of(sheet, kind, name);
        if (!label.empty()) return label;
    }
    return name;  // a circuit
}

// Names and what belongs to each; of many names, only the labels.
struct NameList {
    struct Entry {
        std::string name, detail;
    };
    std::vector<Entry> entries;

    std::string text(const DaySheet& sheet, const char* before_detail) const {
        constexpr size_t kMostNames = 3;
        constexpr size_t kLongDetail = 12;  // characters; may have commas itself
        std::string text;
        for (const Entry& entry : entries) {
            if (!text.empty()) text += entry.detail.size() > kLongDetail ? "; " : ", ";
            text += entries.size() > kMostNames ? label_of_thing(sheet, entry.name) : entry.name;
            if (!entry.detail.empty()) text += before_detail + entry.detail;
        }
        return text;
    }
};

bool is_window(const DaySheet& sheet, const std::string& light) {
    return !light.empty() && label_of(sheet, PlaceKind::kFixture, light).empty();
}

TableBlock targets_of(const DaySheet& sheet, const std::vector<std::string>& meters) {
    TableBlock block;
    block.columns = {{"no", TextSide::kLeft, false}, {"alone", TextSide::kLeft, true}};
    for (const std::string& meter : meters) {
        const std::string label = label_of(sheet, PlaceKind::kMeter, meter);
        block.columns.push_back({label + " " + meter, TextSide::kLeft, true});
    }
    for (const std::string& light : lights_of(sheet)) {
        std::string name = light.empty() ? "all together" : light;
        if (is_window(sheet, light)) name += " (from outside)";
        std::vector<std::string> row = {label_of(sheet, PlaceKind::kFixture, light), name};
        for (const std::string& meter : meters) {
            const MeterTarget* target = find_target(sheet, meter, light);
            row.push_back(target ? target_words(*target) : "");
        }
        block.rows.push_back(std::move(row));
    }
    return block;
}

// The sum of a circuit, as far as the power of its fixtures is given.
std::string known_load(const CircuitLoad& circuit, const std::string& sum) {
    if (circuit.without_power == 0) return sum;
    const bool none = circuit.without_power == static_cast<int>(circuit.fixtures.size());
    return none ? "not given" : "over " + sum;
}

const char* const kTargetsNote =
    "Switch all others off, hold the receptor at the point and face it as listed above. Not in "
    "these figures: light from outside that changes, your own shadow, the age of lamps and gels, "
    "the voltage of the mains, and how your meter differs (C = 250 lx flat, 330 lx dome). ± is in "
    "stops and holds in 68 of 100 cases.";

}  // namespace

TableBlock places_table(const DaySheet& sheet) {
    TableBlock block;
    const bool has_walls = sheet.room.box.has_value();
    block.title = "Where everything stands, m";
    const auto number = [](const char* heading) {
        return TableColumn{heading, TextSide::kRight, false};
    };
    const char* x = has_walls ? "left" : "x";
    const char* z = has_walls ? "back" : "z";
    block.columns = {{"no", TextSide::kLeft, false},
                     {"what", TextSide::kLeft, true},
                     number(x),
                     number(z),
                     number("up"),
                     number("aim: "),
                     number(z),
                     number("up"),
                     {"how", TextSide::kLeft, true}};
    block.columns[5].heading += x;
    for (const PlacedThing& place : sheet.places) {
        std::vector<std::string> row = {place.label, place.name};
        // What is clipped to a fixture has no aim and is not placed by tape.
        const bool is_clipped = place.kind == PlaceKind::kCloth && !place.aim;
        for (const std::string& text : tape_cells(place.at, is_clipped)) row.push_back(text);
        for (const std::string& text : tape_cells(place.aim, true)) row.push_back(text);
        row.push_back(place.how);
        block.rows.push_back(std::move(row));
    }
    block.note =
        has_walls
            ? std::string(
                  "left, back: from the left and the back wall, as on the plan; up: above "
                  "the floor. To a fixture's lens, the middle of a glass's base, the centre "
                  "of a cloth, flag or board, and a figure's feet.") +
                  (sheet.room.is_plain_box ? "" : " The walls are those of the dashed box.")
            : "The set has no walls: x and z are those of the set file. To a fixture's lens, the "
              "middle of a glass's base, the centre of a cloth, flag or board, a figure's feet.";
    return block;
}

std::vector<TableBlock> targets_tables(const DaySheet& sheet) {
    constexpr size_t kMostMeters = 4;  // in one table
    std::vector<TableBlock> blocks;
    if (!sheet.targets || sheet.meters.empty()) {
        TableBlock block;
        block.title = "What the light meter must read";
        block.note = sheet.meters.empty() ? "The set has no [[meter]]: nothing to read."
                                          : "Not known yet: the meters were not read.";
        return {block};
    }
    for (size_t first = 0; first < sheet.meters.size(); first += kMostMeters) {
        const size_t last = std::min(first + kMostMeters, sheet.meters.size());
        blocks.push_back(targets_of(sheet,
                                    {sheet.meters.begin() + static_cast<std::ptrdiff_t>(first),
                                     sheet.meters.begin() + static_cast<std::ptrdiff_t>(last)}));
        blocks.back().title = cell("What the light meter must read, at ISO %.0f and ",
                                   static_cast<double>(sheet.camera.iso)) +
                              shutter_words(sheet.camera);
    }
    blocks.back().note = kTargetsNote;
    return blocks;
}

TableBlock carry_table(const DaySheet& sheet) {
    TableBlock block;
    block.title = "To carry";
    const bool counted = std::any_of(
        sheet.carry.begin(), sheet.carry.end(), [](const CarryItem& i) { return i.have; });
    block.columns = {{"", TextSide::kRight, false},
                     {"what", TextSide::kLeft, true},
                     {"for", TextSide::kLeft, true}};
    if (counted) block.columns.push_back({"missing", TextSide::kRight, false});
    for (const CarryItem& item : sheet.carry) {
        NameList users;
        for (const CarryItem::User& user : item.users) {
            users.entries.push_back({user.thing, user.detail});
        }
        const std::string note = users.entries.empty() ? item.note : users.text(sheet, ": ");
        std::vector<std::string> row = {std::to_string(item.count), item.name, note};
        if (counted) row.push_back(missing(item) > 0 ? std::to_string(missing(item)) : "");
        block.rows.push_back(std::move(row));
    }
    const bool any_mains = std::any_of(
        sheet.list.fixtures.begin(), sheet.list.fixtures.end(), [](const PackedFixture& f) {
            return f.supply == Supply::kMains;
        });
    if (any_mains && sheet.sockets.empty()) {
        block.note =
            "Cables are not counted or drawn: the set names no sockets, mains = [[x, z], ...].";
    }
    return block;
}

TableBlock circuits_table(const DaySheet& sheet) {
    TableBlock block;
    block.title = cell("Power, at %g V", sheet.list.volts);
    block.columns = {{"circuit", TextSide::kLeft, true},
                     {"fixtures", TextSide::kLeft, true},
                     {"power", TextSide::kRight, false},
                     {"current", TextSide::kRight, false},
                     {"load", TextSide::kRight, false}};
    for (const CircuitLoad& c : sheet.list.circuits) {
        NameList names;
        for (const std::string& name : c.fixtures) names.entries.push_back({name, ""});
        block.rows.push_back(
            {c.name.empty() ? "mains" : c.name,
             names.text(sheet, ""),
             known_load(c, cell("%g W", c.power_w)),
             known_load(c, cell("%.2f A", c.current_a)),
             c.share ? cell("%.0f %% of %g A", 100 * *c.share, *sheet.list.circuit_a) : ""});
    }
    if (sheet.list.circuits.empty()) block.note = "No fixture is on the mains.";
    return block;
}

TableBlock order_table(const DaySheet& sheet) {
    TableBlock block;
    block.title = "Build in this order";
    block.columns = {{"", TextSide::kRight, false},
                     {"stage", TextSide::kLeft, false},
                     {"fixture", TextSide::kLeft, true},
                     {"", TextSide::kLeft, true}};
    for (size_t i = 0; i < sheet.build_order.size(); ++i) {
        const BuildStep& step = sheet.build_order[i];
        const std::string label = label_of(sheet, PlaceKind::kFixture, step.fixture);
        block.rows.push_back(
            {std::to_string(i + 1), step.stage, label + " " + step.fixture, step.why});
    }
    block.note = sheet.build_rule;
    return block;
}

// Each advice once, with the things that it is about.
TableBlock cautions_table(const DaySheet& sheet) {
    TableBlock block;
    block.title = "Take care";
    block.columns = {{"", TextSide::kLeft, false},
                     {"what", TextSide::kLeft, true},
                     {"advice", TextSide::kLeft, true}};
    std::vector<NameList> about;
    for (const Caution& c : sheet.list.cautions) {
        size_t row = 0;
        while (row < block.rows.size() && block.rows[row][2] != c.advice) ++row;
        if (row == block.rows.size()) {
            block.rows.push_back({c.kind, "", c.advice});
            about.emplace_back();
        }
        // How bright each lamp is does not matter to those who rig it.
        about[row].entries.push_back({c.about, c.kind == "glare" ? "" : c.what});
    }
    for (size_t i = 0; i < about.size(); ++i) block.rows[i][1] = about[i].text(sheet, ": ");
    block.note = kSheetNote;
    return block;
}

}  // namespace dapple
