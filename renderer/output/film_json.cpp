#include "output/film_json.h"

#include "output/film_words.h"
#include "output/glare_json.h"
#include "output/in_frame_json.h"
#include "output/json_parts.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

template <class Vector>
Json vector_json(const Vector& v) {
    return {v.x, v.y, v.z};
}

Json camera_json(const Camera& c) {
    return {{"position", vector_json(c.position)},
            {"right", vector_json(c.frame.s)},
            {"up", vector_json(c.frame.t)},
            {"forward", vector_json(c.frame.n)},
            {"focal_length_m", c.focal_length},
            {"sensor_m", {c.sensor.x, c.sensor.y}},
            {"frame_px", {c.width, c.height}},
            {"f_number", c.f_number},
            {"shutter_s", c.shutter},
            {"iso", c.iso},
            {"focus_m", c.focus_distance},
            {"white_k", c.white_k}};
}

Json run_json(const RunReport& run) {
    Json json = Json::object();
    add_run(json, run);
    json["first_pass_share"] = run.first_pass_share;
    json["draft_width_px"] = run.draft_width;
    json["threads"] = run.threads;
    json["noise_percent"] = json_number(run.noise_percent);
    json["clean_noise_percent"] = json_number(run.clean_noise_percent);
    return json;
}

Json film_gel_json(const Gel& gel) {
    Json json = {{"shift_mired", gel.shift_mired}, {"stops", gel.stops}, {"spectrum", nullptr}};
    if (!gel.spectrum) return json;
    Json values = Json::array();
    for (int i = 0; i < Curve::kSize; ++i) values.push_back((*gel.spectrum)[i]);
    json["spectrum"] = values;  // transmittance from 380 to 780 nm, every nm
    return json;
}

Json lamp_place_json(const LampPlace& place) {
    return {{"position", vector_json(place.position)}, {"passes", place.passes}};
}

Json film_fixture_json(const Fixture& f) {
    return {{"name", f.name},
            {"source", word_of(kSourceWords, f.source)},
            {"cct_k", f.cct_k},
            {"duv", f.duv},
            {"dimmer", f.dimmer},
            {"dimmer_warms", f.dimmer_warms},
            {"gel", film_gel_json(f.gel)},
            {"is_window", f.is_window}};
}

// Of a symmetric matrix only the lower triangle is kept, row by row.
Json means_json(const GroupMeans& means) {
    Json json = {{"means", means.means}, {"covariances", nullptr}};
    if (means.covariances.empty()) return json;
    Json lower = Json::array();
    for (size_t g = 0; g < means.groups(); ++g) {
        for (size_t h = 0; h <= g; ++h) {
            lower.push_back(json_number(means.covariances[g * means.groups() + h]));
        }
    }
    json["covariances"] = lower;
    return json;
}

Json region_json(const RegionRecord& r) {
    const auto& rect = r.region.rect;
    return {{"name", r.region.name},
            {"surface", r.region.surface},
            {"rect_px", r.region.has_rect ? Json{rect.x, rect.y, rect.z, rect.w} : Json(nullptr)},
            {"luminance", means_json(r.luminance)}};
}

Json meter_json(const MeterRecord& m) {
    Json xyz = Json::array();
    for (const Xyz& v : m.xyz) xyz.push_back(vector_json(v));
    return {{"name", m.meter.name},
            {"receptor", word_of(kReceptorWords, m.meter.receptor)},
            {"position", vector_json(m.meter.position)},
            {"facing", vector_json(m.meter.facing)},
            {"diameter_m", m.meter.diameter},
            {"size_m", {m.meter.size.x, m.meter.size.y}},
            {"xyz", xyz},
            {"lux", means_json(m.lux)}};
}

template <class Things, class ToJson>
Json list_json(const Things& things, const ToJson& to_json) {
    Json list = Json::array();
    for (const auto& thing : things) list.push_back(to_json(thing));
    return list;
}

Json layer_json(const LightLayer& layer) {
    return {{"layer", layer.layer}, {"name", layer.name}, {"fixture", layer.fixture}};
}

}  // namespace

std::string film_json_text(const FilmRecord& record) {
    Json film = {{"version", kFilmVersion},
                 {"title", record.title},
                 {"camera", camera_json(record.camera)},
                 {"run", run_json(record.run)},
                 {"surfaces", record.surfaces},
                 {"fixtures", list_json(record.fixtures, film_fixture_json)},
                 {"lamp_places", list_json(record.lamp_places, lamp_place_json)},
                 {"layers", list_json(record.layers, layer_json)},
                 {"frame", means_json(record.frame)},
                 {"regions", list_json(record.regions, region_json)},
                 {"meters", list_json(record.meters, meter_json)},
                 {"in_frame", in_frame_json(record.in_frame)}};
    if (record.has_glare()) film["glare"] = glare_report_json(record.glare_report);
    return film.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace dapple
