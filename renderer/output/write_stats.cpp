#include "output/write_stats.h"

#include <cstdio>

#include "develop/exposure.h"
#include "output/in_frame_json.h"
#include "output/json_parts.h"
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

Json fixtures_json(const std::vector<FixtureShare>& fixtures) {
    Json list = Json::array();
    for (const FixtureShare& f : fixtures) {
        list.push_back({{"name", f.name},
                        {"share", json_number(f.share)},
                        {"mean_luminance", json_number(f.mean_luminance)}});
    }
    return list;
}

Json region_json(const RegionJudgement& region) {
    const auto& u = region.uniformity;
    const auto& p = region.pattern;
    using Optional = std::optional<double>;
    return {{"name", region.name},
            {"pixels", region.pixels},
            {"mean_luminance", json_number(region.mean_luminance)},
            {"mean_stderr", json_number(region.mean_stderr)},
            {"uniformity", json_number(u ? Optional(u->u0) : std::nullopt)},
            {"uniformity_stderr", json_number(u ? Optional(u->stderr_of_u0) : std::nullopt)},
            {"texture_stops", json_number(p ? Optional(p->texture_stops) : std::nullopt)},
            {"patch_cm", json_number(p ? p->patch_cm : std::nullopt)},
            {"patch_px", json_number(p ? p->patch_px : std::nullopt)},
            {"cover", json_number(p ? Optional(p->cover) : std::nullopt)},
            {"block_px", p ? Json(p->block_px) : Json(nullptr)}};
}

Json regions_json(const std::vector<RegionJudgement>& regions) {
    Json list = Json::array();
    for (const RegionJudgement& region : regions) list.push_back(region_json(region));
    return list;
}

}  // namespace

std::string stats_json_text(const FilmStatistics& statistics,
                            const Scene& scene,
                            const RunReport& report,
                            const InFrame& in_frame) {
    Json file = {
        {"title", scene.title}, {"width", scene.camera.width}, {"height", scene.camera.height}};
    add_run(file, report);
    file["threads"] = report.threads;
    file["statistics_of"] = "measured film";  // the clean frame changes none of them
    file["typical_noise_percent"] = {{"measured", json_number(report.noise_percent)},
                                     {"clean", json_number(report.clean_noise_percent)}};
    file["exposure"] = exposure_json(scene.camera);
    file["luminance"] = luminance_json(statistics.luminance);
    file["stops"] = stops_json(statistics.stops);
    file["fixtures"] = fixtures_json(statistics.fixtures);
    file["meters"] = meters_json(statistics.meters);
    file["regions"] = regions_json(statistics.regions);
    file["in_frame"] = in_frame.width > 0 ? in_frame_json(in_frame) : Json(nullptr);
    return json_text(file);
}

void write_stats(const std::string& path,
                 const FilmStatistics& statistics,
                 const Scene& scene,
                 const RunReport& report,
                 const InFrame& in_frame) {
    write_text(path, stats_json_text(statistics, scene, report, in_frame));
}

void write_luminance_csv(const std::string& path, const Film& film) {
    SafeFile file(path);
    std::string row;
    int64_t offset = 0;
    for (int y = 0; y < film.height(); ++y) {
        row.clear();
        for (int x = 0; x < film.width(); ++x) {
            char cell[32];
            std::snprintf(cell, sizeof cell, "%.6g", film.resolve(y * film.width() + x).y);
            if (x > 0) row += ',';
            row += cell;
        }
        row += '\n';
        file.write_at(row.data(), row.size(), offset);
        offset += static_cast<int64_t>(row.size());
    }
    file.commit();
}

}  // namespace dapple
