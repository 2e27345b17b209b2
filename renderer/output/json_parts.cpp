#include "output/json_parts.h"

#include <cmath>

#include "develop/exposure.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

// What the results hold if no pass of the frame is finished; null if one is.
Json unfinished_json(const RunReport& run) {
    if (run.draft_width > 0) return {{"draft_width_px", run.draft_width}};
    if (run.first_pass_share < 1) return {{"first_pass_share", run.first_pass_share}};
    return nullptr;
}

// Light is never read without error, so 0 means that the error is not known after one pass.
Json error_json(double lux, double error) {
    return lux > 0 && !(error > 0) ? Json(nullptr) : json_number(error);
}

}  // namespace

Json json_number(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json json_number(const std::optional<double>& value) {
    return value ? json_number(*value) : Json(nullptr);
}

void add_run(Json& file, const RunReport& run) {
    file["set"] = run.set.empty() ? Json(nullptr) : Json(run.set);
    file["passes"] = run.passes;
    file["seconds"] = json_number(run.seconds);
    file["rays"] = run.rays;
    file["seed"] = run.seed;
    file["nonfinite_samples"] = run.nonfinite_samples;
    file["stopped_early"] = run.stopped_early;
    file["unfinished"] = unfinished_json(run);
    file["transport"] = run.transport;
}

Json meters_json(const std::vector<MeterJudgement>& meters) {
    Json list = Json::array();
    for (const MeterJudgement& m : meters) {
        Json parts = Json::array();
        for (size_t f = 0; f < m.by_fixture.size(); ++f) {
            parts.push_back(
                {{"name", m.fixtures[f]},
                 {"lux", json_number(m.by_fixture[f].lux)},
                 {"lux_stderr", error_json(m.by_fixture[f].lux, m.by_fixture[f].lux_stderr)}});
        }
        list.push_back({{"name", m.name},
                        {"receptor", m.receptor == ReceptorKind::kDome ? "dome" : "flat"},
                        {"lux", json_number(m.lux)},
                        {"lux_stderr", error_json(m.lux, m.lux_stderr)},
                        {"by_fixture", parts},
                        {"f_number", json_number(m.f_number)},
                        {"f_stop", m.lux > 0 ? Json(f_stop_text(m.f_number)) : Json(nullptr)},
                        {"stops_from_camera", json_number(m.stops_from_camera)}});
    }
    return list;
}

std::string json_text(const Json& file) {
    return file.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace dapple
