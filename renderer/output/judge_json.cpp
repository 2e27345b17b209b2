#include "develop/exposure.h"
#include "judge/words.h"
#include "output/glare_json.h"
#include "output/in_frame_json.h"
#include "output/json_parts.h"
#include "output/judge_text.h"
#include "output/region_json.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

Json light_json(const FilmStatistics& statistics) {
    Json list = Json::array();
    for (const MeterJudgement& m : statistics.meters) {
        Json parts = Json::array();
        for (size_t f = 0; f < m.by_fixture.size(); ++f) {
            parts.push_back(
                {{"fixture", m.fixtures[f]}, {"share", json_number(m.by_fixture[f].lux / m.lux)}});
        }
        list.push_back(
            {{"meter", m.name},
             {"f_number", m.lux > 0 ? json_number(m.f_number) : Json(nullptr)},
             {"f_stop", m.lux > 0 ? Json(f_stop_text(m.f_number)) : Json(nullptr)},
             {"stops_from_camera", json_number(m.stops_from_camera)},
             {"lux", json_number(m.lux)},
             {"lux_stderr", statistics.noise_known ? json_number(m.lux_stderr) : Json(nullptr)},
             {"word", light_word(statistics.stops_of(m))},
             {"by_fixture", parts}});
    }
    return list;
}

Json hot_spots_json(const HotSpots& spots) {
    if (!spots.why.empty()) return nullptr;
    Json list = Json::array();
    for (const HotSpot& s : spots.list) {
        list.push_back({{"x", s.x},
                        {"y", s.y},
                        {"where", s.where},
                        {"stops", json_number(s.stops.value)},
                        {"stops_stderr", json_number(s.stops.error)},
                        {"stops_over_lit_side", json_number(s.over_lit_side.value)},
                        {"fixture", s.fixture.empty() ? Json(nullptr) : Json(s.fixture)},
                        {"fixture_share", json_number(s.share)},
                        {"surface", s.surface.empty() ? Json(nullptr) : Json(s.surface)}});
    }
    return list;
}

Json directions_json() {
    Json directions = Json::object();
    for (const MeasureDirection& d : kDirections) directions[d.measure] = d.direction;
    return directions;
}

Json name_json(const std::string& name) {
    return name.empty() ? Json(nullptr) : Json(name);
}

}  // namespace

std::string judge_json_text(const FilmStatistics& statistics, const FilmRecord& record) {
    Json file = {{"title", record.title}, {"width", record.width()}, {"height", record.height()}};
    add_run(file, record.run);
    file["light"] = light_json(statistics);
    file["key"] = name_json(statistics.key);
    file["fill"] = name_json(statistics.fill);
    file["ratios"] = ratios_json(statistics.ratios);
    file["regions"] = regions_json(statistics.regions);
    file["sides"] = statistics.sides.empty() ? Json(nullptr) : regions_json(statistics.sides);
    file["sides_why"] = reason_json(statistics.no_sides);
    file["picture"] = tones_json(statistics.tones);
    file["lamp_faces"] = lamp_faces_json(statistics.lamp_faces);
    file["fixtures"] = fixtures_json(statistics.fixtures);
    file["in_frame"] = in_frame_json(record.in_frame);
    if (statistics.glare) file["glare"] = glare_json(*statistics.glare, record);
    file["hot_spots"] = hot_spots_json(statistics.hot_spots);
    file["hot_spots_why"] = reason_json(statistics.hot_spots.why);
    file["more_is"] = directions_json();
    return json_text(file);
}

}  // namespace dapple
