#include "desk/desk_json.h"

#include <array>
#include <cmath>
#include <filesystem>

#include "desk/json_line.h"
#include "desk/new_set.h"
#include "geometry/make_column.h"
#include "render/packing/silhouettes.h"
#include "set/kit.h"
#include "set/set_outline.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

Json tables_json(const std::string& text) {
    Json list = Json::array();
    for (const OutlineTable& table : outline_of(text)) {
        Json keys = Json::object();
        for (const OutlineKey& key : table.keys) {
            keys[key.key] = Json::parse(key.json, nullptr, false);
        }
        list.push_back({{"kind", table.kind},
                        {"name", table.name},
                        {"address", table.address},
                        {"line", table.line},
                        {"keys", keys}});
    }
    return list;
}

// A table's keys that hold a number, two numbers, a word, or yes and no.
Json plain_keys_json(const toml::table* table) {
    Json keys = Json::object();
    if (table == nullptr) return keys;
    for (const auto& [key, node] : *table) {
        if (const auto number = node.value_exact<double>()) keys[key.data()] = *number;
        if (const auto whole = node.value_exact<int64_t>()) keys[key.data()] = *whole;
        if (const auto word = node.value_exact<std::string>()) keys[key.data()] = *word;
        if (const auto is_so = node.value_exact<bool>()) keys[key.data()] = *is_so;
    }
    for (const auto& [key, node] : *table) {
        const toml::array* pair = node.as_array();
        if (!pair || pair->size() != 2) continue;
        const auto low = (*pair)[0].value<double>(), high = (*pair)[1].value<double>();
        if (low && high) keys[key.data()] = {*low, *high};
    }
    keys.erase("kit");
    keys.erase("about");
    return keys;
}

Json flat_json(const std::vector<Vec2>& points) {
    Json list = Json::array();
    for (const Vec2& p : points) list.push_back({p.x, p.y});
    return list;
}

Json polygons_json(const std::vector<FlatPolygon>& polygons) {
    Json list = Json::array();
    for (const FlatPolygon& polygon : polygons) list.push_back(flat_json(polygon));
    return list;
}

Json room_json(const DrawnRoom& room) {
    Json json;
    json["box"] = nullptr;
    if (room.box) json["box"] = {point_json(room.box->low), point_json(room.box->high)};
    json["cut_above"] = flat_json(room.is_plain_box ? std::vector<Vec2>() : room.cut_low);
    json["cut_high"] = flat_json(room.is_plain_box ? std::vector<Vec2>() : room.cut_high);
    json["cut_side"] = flat_json(room.is_plain_box ? std::vector<Vec2>() : room.cut_side);
    json["openings"] = Json::array();
    for (const WallOpening& opening : room.openings) {
        Json corners = Json::array();
        for (const Point& p : opening.corners) corners.push_back(point_json(p));
        json["openings"].push_back(
            {{"name", opening.name}, {"window", opening.is_window}, {"corners", corners}});
    }
    return json;
}

Json place_json_of(const PlacedThing& thing) {
    constexpr std::array<const char*, 8> kKinds = {
        "camera", "fixture", "glass", "diffuser", "flag", "bounce", "stand_in", "meter"};
    Json json = {{"kind", kKinds[static_cast<size_t>(thing.kind)]},
                 {"name", thing.name},
                 {"label", thing.label},
                 {"how", thing.how},
                 {"at", point_json(thing.at.position)},
                 {"aim", thing.aim ? point_json(thing.aim->position) : Json(nullptr)},
                 {"above", polygons_json(thing.from_above)},
                 {"side", polygons_json(thing.from_side)},
                 {"beam", nullptr}};
    if (thing.beam) {
        json["beam"] = {{"axis", point_json(thing.beam->axis)},
                        {"beam_angle", thing.beam->beam_angle},
                        {"field_angle", thing.beam->field_angle},
                        {"length", thing.beam->length}};
    }
    return json;
}

// A column, a table or a box, as other things.
Json column_json(const Column& column, bool side_shows_z) {
    const Mesh mesh = make_column(column);
    return {{"kind", "column"},
            {"name", column.name},
            {"label", ""},
            {"how", ""},
            {"at", point_json(column.position)},
            {"aim", nullptr},
            {"above", polygons_json(outline_of(mesh, SheetView::kAbove, side_shows_z))},
            {"side", polygons_json(outline_of(mesh, SheetView::kSide, side_shows_z))},
            {"beam", nullptr}};
}

}  // namespace

std::string tables_text(const std::string& text) {
    try {
        return line_of(tables_json(text));
    } catch (const std::exception&) {
        return "[]";  // its mistakes are told by the frame
    }
}

std::string set_json(const SetHistory& history, std::optional<uint64_t> merged) {
    const char* const when = merged == history.version() ? "now" : "before";
    const Json json = {{"version", history.version()},
                       {"file", std::filesystem::path(history.path()).filename().string()},
                       {"folder", folder_of_set(history.path())},
                       {"not_safe", history.not_safe()},
                       {"has_file", history.has_file()},
                       {"untouched", history.is_untouched()},
                       {"saved", history.is_saved()},
                       {"undo", history.can_undo()},
                       {"redo", history.can_redo()},
                       {"merged", merged ? Json(when) : Json(nullptr)},
                       {"changed_outside", history.changed_outside().has_value()},
                       {"left_over", history.left_over().has_value()},
                       {"text", history.text()},
                       {"tables", Json::parse(tables_text(history.text()))}};
    return line_of(json);
}

std::string versions_json(const std::vector<std::string>& names) {
    return line_of({{"names", names}});
}

std::string film_json(uint64_t number, uint64_t version, bool is_moving) {
    return line_of({{"number", number}, {"version", version}, {"moving", is_moving}});
}

std::string kit_json(const std::string& set_path) {
    Problems problems;
    KitShelf shelf(kit_folders(set_path), problems);
    Json list = Json::array();
    for (const KitEntry& entry : shelf.entries()) {
        list.push_back({{"kind", entry.kind},
                        {"name", entry.name},
                        {"about", entry.about},
                        {"keys", plain_keys_json(entry.table)}});
    }
    Json json = {{"entries", list}, {"problems", Json::array()}};
    for (const Problem& p : problems.all()) json["problems"].push_back(to_string(p));
    return line_of(json);
}

std::string drawing_json(uint64_t version,
                         const DaySheet& sheet,
                         const std::vector<Column>& columns) {
    const Camera& camera = sheet.camera;
    Json json = {{"version", version},
                 {"side_shows_z", sheet.side_shows_z},
                 {"side_words", sheet.side_shows_z ? "From the left side" : "From the front"},
                 {"room", room_json(sheet.room)},
                 {"frame", {camera.width, camera.height}},
                 // Half of the angle that the lens sees, across and up, rad.
                 {"lens", {std::atan(sheet.half_view.x), std::atan(sheet.half_view.y)}},
                 {"things", Json::array()},
                 {"cables", Json::array()}};
    // First, and so below what stands on them.
    for (const Column& column : columns) {
        json["things"].push_back(column_json(column, sheet.side_shows_z));
    }
    for (const PlacedThing& thing : sheet.places) json["things"].push_back(place_json_of(thing));
    for (const DrawnCable& cable : sheet.cables) {
        json["cables"].push_back(
            {{"fixture", cable.fixture},
             {"points", {point_json(cable.top), point_json(cable.from), point_json(cable.to)}}});
    }
    return line_of(json);
}

std::string doubts_json(const Doubts& doubts) {
    Json list = Json::array();
    for (const Doubt& doubt : doubts) {
        list.push_back({{"line", doubt.what.place.line},
                        {"key", doubt.what.key},
                        {"message", doubt.what.message},
                        {"guess", doubt.is_guess}});
    }
    return line_of(list);
}

std::string problems_json(uint64_t version, const Problems& problems) {
    Json json = {{"version", version}, {"problems", Json::array()}, {"notes", Json::array()}};
    for (const Problem& p : problems.all()) {
        json["problems"].push_back(
            {{"file", std::filesystem::path(p.place.file).filename().string()},
             {"line", p.place.line},
             {"key", p.key},
             {"message", p.message},
             {"text", to_string(p)}});
    }
    for (const Problem& p : problems.notes()) json["notes"].push_back(to_string(p));
    return line_of(json);
}

std::string picture_json(uint64_t number, const LivePicture& picture) {
    return line_of(
        {{"number", number},
         {"version", picture.version},
         {"width", picture.width},
         {"height", picture.height},
         {"shape", picture.shape},
         {"light_width", picture.light_width},
         {"passes", picture.passes},
         {"seconds", picture.seconds},
         {"waited", picture.waited_s},
         {"mixed", picture.is_mixed},
         {"noise_percent", picture.noise_percent ? Json(*picture.noise_percent) : Json(nullptr)}});
}

}  // namespace dapple
