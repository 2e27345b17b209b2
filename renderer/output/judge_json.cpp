#include "develop/exposure.h"
#include "judge/words.h"
#include "output/json_parts.h"
#include "output/judge_text.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

// Adds the reason of a measure that has no value.
void add_reason(Json& reasons, const std::string& key, const Measure& measure) {
    if (!measure) reasons[key] = measure.why;
}

Json word_json(const Measure& measure, std::string (*word_of)(double)) {
    return measure ? Json(word_of(*measure)) : Json(nullptr);
}

Json light_json(const FilmStatistics& statistics) {
    Json list = Json::array();
    for (const MeterJudgement& m : statistics.meters) {
        Json parts = Json::array();
        for (size_t f = 0; f < m.by_fixture.size(); ++f) {
            parts.push_back({{"fixture", m.fixtures[f]},
                             {"share", json_number(m.by_fixture[f].lux / m.lux)}});
        }
        const std::optional<double> error =
            statistics.noise_known ? std::optional(m.lux_stderr) : std::nullopt;
        list.push_back({{"meter", m.name},
                        {"f_number", m.lux > 0 ? json_number(m.f_number) : Json(nullptr)},
                        {"f_stop", m.lux > 0 ? Json(f_stop_text(m.f_number)) : Json(nullptr)},
                        {"stops_from_camera", json_number(m.stops_from_camera)},
                        {"lux", json_number(m.lux)},
                        {"lux_stderr", json_number(error)},
                        {"word", light_word(m.stops_from_camera)},
                        {"by_fixture", parts}});
    }
    return list;
}

Json ratios_json(const std::vector<Ratio>& ratios) {
    Json list = Json::array();
    for (const Ratio& r : ratios) {
        list.push_back({{"name", r.from + ", " + r.name},
                        {"value", json_number(r.value.value)},
                        {"stderr", json_number(r.value.error)},
                        {"definition", r.definition},
                        {"word", word_json(r.value, ratio_word)},
                        {"why", r.value ? Json(nullptr) : Json(r.value.why)}});
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

Json reason_json(const std::string& why) {
    return why.empty() ? Json(nullptr) : Json(why);
}

}  // namespace

Json region_json(const RegionJudgement& region) {
    const Pattern& p = region.pattern;
    Json reasons = Json::object();
    add_reason(reasons, "mean_luminance", region.mean_luminance);
    add_reason(reasons, "uniformity", region.uniformity);
    add_reason(reasons, "texture_stops", p.texture_stops);
    add_reason(reasons, "patch_px", p.patch_px);
    add_reason(reasons, "patch_cm", p.patch_cm);
    add_reason(reasons, "cover", p.cover);
    add_reason(reasons, "deep_shadow_share", region.tones.deep_shadow);
    add_reason(reasons, "clipped_share", region.tones.clipped);
    return {{"name", region.name},
            {"pixels", region.pixels},
            {"mean_luminance", json_number(region.mean_luminance.value)},
            {"mean_stderr", json_number(region.mean_luminance.error)},
            {"uniformity", json_number(region.uniformity.value)},
            {"uniformity_stderr", json_number(region.uniformity.error)},
            {"texture_stops", json_number(p.texture_stops.value)},
            {"texture_stderr", json_number(p.texture_stops.error)},
            {"texture_word", word_json(p.texture_stops, texture_word)},
            {"patch_cm", json_number(p.patch_cm.value)},
            {"patch_cm_stderr", json_number(p.patch_cm.error)},
            {"patch_px", json_number(p.patch_px.value)},
            {"cover", json_number(p.cover.value)},
            {"cover_stderr", json_number(p.cover.error)},
            {"deep_shadow_share", json_number(region.tones.deep_shadow.value)},
            {"deep_shadow_stderr", json_number(region.tones.deep_shadow.error)},
            {"deep_shadow_word", word_json(region.tones.deep_shadow, shadow_word)},
            {"clipped_share", json_number(region.tones.clipped.value)},
            {"clipped_stderr", json_number(region.tones.clipped.error)},
            {"clipped_word", word_json(region.tones.clipped, clipping_word)},
            {"block_px", p.block_px > 0 ? Json(p.block_px) : Json(nullptr)},
            {"why", reasons.empty() ? Json(nullptr) : reasons}};
}

Json regions_json(const std::vector<RegionJudgement>& regions) {
    Json list = Json::array();
    for (const RegionJudgement& region : regions) list.push_back(region_json(region));
    return list;
}

Json tones_json(const Tones& tones) {
    return {{"deep_shadow_share", json_number(tones.deep_shadow.value)},
            {"deep_shadow_stderr", json_number(tones.deep_shadow.error)},
            {"clipped_share", json_number(tones.clipped.value)},
            {"clipped_stderr", json_number(tones.clipped.error)},
            {"why", reason_json(tones.deep_shadow.why)}};
}

std::string judge_json_text(const FilmStatistics& statistics, const FilmRecord& record) {
    Json file = {
        {"title", record.title}, {"width", record.width()}, {"height", record.height()}};
    add_run(file, record.run);
    file["light"] = light_json(statistics);
    file["key"] = name_json(statistics.key);
    file["fill"] = name_json(statistics.fill);
    file["ratios"] = ratios_json(statistics.ratios);
    file["regions"] = regions_json(statistics.regions);
    file["sides"] = statistics.sides.empty() ? Json(nullptr) : regions_json(statistics.sides);
    file["sides_why"] = reason_json(statistics.no_sides);
    file["picture"] = tones_json(statistics.tones);
    file["lamp_faces"] = {{"pixels", statistics.lamp_faces.pixels},
                          {"share", json_number(statistics.lamp_faces.share)}};
    file["fixtures"] = fixtures_json(statistics.fixtures);
    file["in_frame"] = nullptr;
    file["hot_spots"] = hot_spots_json(statistics.hot_spots);
    file["hot_spots_why"] = reason_json(statistics.hot_spots.why);
    file["more_is"] = directions_json();
    return json_text(file);
}

}  // namespace dapple
