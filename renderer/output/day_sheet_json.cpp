#include "output/day_sheet_json.h"

#include <array>
#include <cmath>

#include "output/json_parts.h"
#include "output/packing_list_json.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

// Rounded to a tenth of a millimetre, the accuracy of the floats. Never -0.
Json tape_metres(double x) {
    return json_number(std::round(x * 1e4) / 1e4 + 0.0);
}

Json tape_json(const TapePlace& place) {
    Json walls = nullptr;
    if (place.from_walls) {
        walls = {tape_metres(place.from_walls->x), tape_metres(place.from_walls->y)};
    }
    return {{"from_walls_m", walls},
            {"height_m", place.height ? tape_metres(*place.height) : Json(nullptr)},
            {"position",
             {tape_metres(place.position.x),
              tape_metres(place.position.y),
              tape_metres(place.position.z)}}};
}

Json place_json(const PlacedThing& place) {
    constexpr std::array<const char*, 8> kWords = {
        "camera", "fixture", "glass", "cloth", "flag", "bounce", "figure", "meter"};
    Json json = {{"name", place.name},
                 {"kind", kWords[static_cast<size_t>(place.kind)]},
                 {"label", place.label}};
    json.update(tape_json(place.at));
    json["aim"] = place.aim ? tape_json(*place.aim) : Json(nullptr);
    json["how"] = place.how;
    return json;
}

// "key 50 %, fill 40 %"
std::string carry_note(const CarryItem& item) {
    std::string note = item.note;
    for (const CarryItem::User& user : item.users) {
        note += (note.empty() ? "" : ", ") + user.thing;
        if (!user.detail.empty()) note += " " + user.detail;
    }
    return note;
}

Json target_json(const MeterTarget& target) {
    return {{"meter", target.meter},
            {"fixture", target.fixture.empty() ? Json(nullptr) : Json(target.fixture)},
            {"window", target.is_window},
            {"lux", json_number(target.lux)},
            {"lux_stderr", json_number(target.lux_stderr)},
            {"f_number", json_number(target.f_number)},
            {"f_stop", target.f_stop.empty() ? Json(nullptr) : Json(target.f_stop)},
            {"stops_stderr", target.lux > 0 ? json_number(target.stops_stderr) : Json(nullptr)}};
}

Json targets_json(const DaySheet& sheet) {
    if (!sheet.targets) return nullptr;
    Json list = Json::array();
    for (const MeterTarget& target : *sheet.targets) list.push_back(target_json(target));
    return list;
}

}  // namespace

std::string day_sheet_json_text(const DaySheet& sheet, const std::string& set) {
    Json file = packing_list_json(sheet.list);
    const Json note = file["note"];
    file.erase("note");
    file["set"] = set.empty() ? Json(nullptr) : Json(set);
    file["walls"] = {"left", "back"};  // of from_walls_m
    file["places"] = Json::array();
    for (const PlacedThing& place : sheet.places) file["places"].push_back(place_json(place));
    file["carry"] = Json::array();
    for (const CarryItem& item : sheet.carry) {
        file["carry"].push_back({{"kind", item.kind},
                                 {"name", item.name},
                                 {"count", item.count},
                                 {"note", carry_note(item)},
                                 {"have", item.have ? Json(*item.have) : Json(nullptr)},
                                 {"missing", item.have ? Json(missing(item)) : Json(nullptr)}});
    }
    file["cables"] = Json(nullptr);
    if (!sheet.sockets.empty()) file["cables"] = Json::array();
    for (const DrawnCable& cable : sheet.cables) {
        file["cables"].push_back({{"fixture", cable.fixture},
                                  {"length_m", tape_metres(cable.length)},
                                  {"socket", {tape_metres(cable.to.x), tape_metres(cable.to.z)}}});
    }
    file["build_order"] = Json::array();
    for (const BuildStep& step : sheet.build_order) {
        file["build_order"].push_back(
            {{"stage", step.stage}, {"fixture", step.fixture}, {"why", step.why}});
    }
    file["targets"] = targets_json(sheet);
    file["note"] = note;
    return json_text(file);
}

}  // namespace dapple
