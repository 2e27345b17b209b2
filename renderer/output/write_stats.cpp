#include "output/write_stats.h"

#include <cstdio>

#include "develop/exposure.h"
#include "output/glare_json.h"
#include "output/in_frame_json.h"
#include "output/json_parts.h"
#include "output/region_json.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

Json exposure_json(const Camera& camera) {
    const double white = white_luminance(camera);
    return {{"f_number", json_number(camera.f_number)},
            {"shutter_s", json_number(camera.shutter)},
            {"iso", json_number(camera.iso)},
            {"white_k", json_number(camera.white_k)},
            {"ev100", json_number(exposure_value(camera))},
            {"metered_lux",
             json_number(metered_illuminance(camera.f_number, camera.shutter, camera.iso))},
            {"white_luminance_cd_m2", json_number(white)},
            {"saturation_luminance_cd_m2", json_number(kSaturationHeadroom * white)}};
}

Json luminance_json(const LuminanceStatistics& l) {
    return {{"min", json_number(l.min)},
            {"max", json_number(l.max)},
            {"mean", json_number(l.mean)},
            {"mean_stderr", json_number(l.mean_stderr)},
            {"median", json_number(l.median)},
            {"p01", json_number(l.p01)},
            {"p05", json_number(l.p05)},
            {"p95", json_number(l.p95)},
            {"p99", json_number(l.p99)}};
}

Json stops_json(const StopsStatistics& stops) {
    return {{"first_stop", StopsStatistics::kFirstStop},
            {"bin_stops", StopsStatistics::kBinStops},
            {"histogram", stops.histogram},
            {"clipped_share", json_number(stops.clipped_share)},
            {"saturated_share", json_number(stops.saturated_share)},
            {"deep_shadow_share", json_number(stops.deep_shadow_share)}};
}

}  // namespace

std::string stats_json_text(const FilmStatistics& statistics, const FilmRecord& record) {
    const RunReport& run = record.run;
    Json file = {{"title", record.title}, {"width", record.width()}, {"height", record.height()}};
    add_run(file, run);
    file["threads"] = run.threads;
    file["statistics_of"] = "measured film";  // the clean frame changes none of them
    file["typical_noise_percent"] = {{"measured", json_number(run.noise_percent)},
                                     {"clean", json_number(run.clean_noise_percent)}};
    file["left_out_of_clean"] = json_number(statistics.left_out_of_clean);
    file["exposure"] = exposure_json(record.camera);
    file["luminance"] = luminance_json(statistics.luminance);
    file["stops"] = stops_json(statistics.stops);
    file["picture"] = tones_json(statistics.tones);
    file["lamp_faces"] = lamp_faces_json(statistics.lamp_faces);
    file["fixtures"] = fixtures_json(statistics.fixtures);
    file["meters"] = meters_json(statistics.meters);
    file["regions"] = regions_json(statistics.regions);
    file["sides"] = statistics.sides.empty() ? Json(nullptr) : regions_json(statistics.sides);
    file["sides_why"] = reason_json(statistics.no_sides);
    file["ratios"] = ratios_json(statistics.ratios);
    file["in_frame"] = in_frame_json(record.in_frame);
    if (statistics.glare) file["glare"] = glare_json(*statistics.glare, record);
    return json_text(file);
}

void write_stats(const std::string& path,
                 const FilmStatistics& statistics,
                 const FilmRecord& record) {
    write_text(path, stats_json_text(statistics, record));
}

void write_luminance_csv(const std::string& path, const FilmRecord& record) {
    SafeFile file(path);
    std::string row;
    int64_t offset = 0;
    for (size_t i = 0; i < record.luminance.size(); ++i) {
        char cell[32];
        std::snprintf(cell, sizeof cell, "%.6g", static_cast<double>(record.luminance[i]));
        row += cell;
        const bool is_last = (i + 1) % static_cast<size_t>(record.width()) == 0;
        row += is_last ? '\n' : ',';
        if (!is_last) continue;
        file.write_at(row.data(), row.size(), offset);
        offset += static_cast<int64_t>(row.size());
        row.clear();
    }
    file.commit();
}

}  // namespace dapple
