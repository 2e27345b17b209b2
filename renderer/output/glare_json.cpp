#include "output/glare_json.h"

#include <cmath>

#include "base/units.h"
#include "develop/exposure.h"
#include "output/film_words.h"
#include "output/json_parts.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

Json part_json(const GlarePart& part) {
    Json by = Json::array();
    for (const GlareOfFixture& f : part.by_fixture) {
        by.push_back({{"fixture", f.fixture}, {"share", f.share}});
    }
    return {{"name", part.name},
            {"pixels", part.pixels},
            {"contrast_lost_stops", json_number(part.contrast_lost.value)},
            {"contrast_lost_stderr", json_number(part.contrast_lost.error)},
            {"shadows_raised_stops", json_number(part.shadows_raised.value)},
            {"shadows_raised_stderr", json_number(part.shadows_raised.error)},
            {"mean_glare_cd_m2", part.mean_glare},
            {"by_fixture", by},
            {"why", part.contrast_lost ? Json(nullptr) : Json(part.contrast_lost.why)}};
}

Json ghost_json(const Ghost& ghost, double white) {
    return {{"surfaces", {ghost.first, ghost.second}},
            {"x", ghost.at.x},
            {"y", ghost.at.y},
            {"diameter_px", ghost.diameter},
            {"luminance_cd_m2", ghost.luminance},
            {"stops_from_white", json_number(std::log2(ghost.luminance / white))}};
}

Json lamp_json(const GlareLamp& lamp, double white) {
    Json ghosts = Json::array();
    for (const Ghost& ghost : lamp.ghosts) ghosts.push_back(ghost_json(ghost, white));
    return {{"fixture", lamp.fixture},
            {"seen", word_of(kSeenWords, lamp.way)},
            {"reflected_by", lamp.mirror.empty() ? Json(nullptr) : Json(lamp.mirror)},
            {"in_picture", lamp.in_picture},
            {"angle_deg", degrees_from_radians(lamp.angle)},
            {"lux", lamp.lux},
            {"lit_share", lamp.lit_share},
            {"ghosts", ghosts},
            {"hood_mm", json_number(lamp.hood_mm)},
            {"move_m", json_number(lamp.move_m)},
            {"turn_away_deg", json_number(lamp.turn_away_deg)}};
}

Json lamps_json(const GlareReport& report, double white) {
    Json list = Json::array();
    for (const GlareLamp& lamp : report.lamps) list.push_back(lamp_json(lamp, white));
    return list;
}

std::optional<double> optional_number(const Json& json) {
    return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

GlareLamp parse_lamp(const Json& json) {
    GlareLamp lamp;
    lamp.fixture = json.at("fixture");
    lamp.way = meaning_of(kSeenWords, json.at("seen"));
    if (json.contains("reflected_by") && !json.at("reflected_by").is_null()) {
        lamp.mirror = json.at("reflected_by");
    }
    lamp.in_picture = json.at("in_picture");
    lamp.angle = radians_from_degrees(json.at("angle_deg").get<double>());
    lamp.lux = json.at("lux");
    lamp.lit_share = json.at("lit_share");
    for (const Json& g : json.at("ghosts")) {
        lamp.ghosts.push_back({g.at("surfaces").at(0),
                               g.at("surfaces").at(1),
                               DVec2(g.at("x").get<double>(), g.at("y").get<double>()),
                               g.at("diameter_px"),
                               g.at("luminance_cd_m2")});
    }
    lamp.hood_mm = optional_number(json.at("hood_mm"));
    lamp.move_m = optional_number(json.at("move_m"));
    lamp.turn_away_deg = optional_number(json.at("turn_away_deg"));
    return lamp;
}

}  // namespace

Json glare_json(const GlareJudgement& glare, const FilmRecord& record) {
    const GlareReport& report = record.glare_report;
    Json regions = Json::array();
    for (const GlarePart& part : glare.regions) regions.push_back(part_json(part));
    return {{"lens", report.lens.empty() ? Json(nullptr) : Json(report.lens)},
            {"f_number", report.f_number},
            {"hood_mm", report.hood_mm},
            {"veiling_glare_percent", 100 * report.index},
            {"ghosts_percent", 100 * report.ghosts_index},
            {"with_glare",
             {{"mean_luminance", glare.mean_luminance},
              {"clipped_share", glare.clipped_share},
              {"deep_shadow_share", glare.deep_shadow_share}}},
            {"picture", part_json(glare.picture)},
            {"regions", regions},
            {"lamps", lamps_json(report, white_luminance(record.camera))}};
}

Json glare_report_json(const GlareReport& report) {
    return {{"lens", report.lens},
            {"f_number", report.f_number},
            {"hood_mm", report.hood_mm},
            {"index", report.index},
            {"ghosts_index", report.ghosts_index},
            {"lamps", lamps_json(report, 1)}};
}

GlareReport parse_glare_report(const Json& json) {
    GlareReport report;
    report.lens = json.at("lens");
    report.f_number = json.at("f_number");
    report.hood_mm = json.at("hood_mm");
    report.index = json.at("index");
    report.ghosts_index = json.at("ghosts_index");
    for (const Json& lamp : json.at("lamps")) report.lamps.push_back(parse_lamp(lamp));
    return report;
}

}  // namespace dapple
