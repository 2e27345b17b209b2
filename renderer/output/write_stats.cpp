#include "output/write_stats.h"

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "develop/exposure.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

// JSON has no infinity and no NaN.
Json number(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json number(const std::optional<double>& value) {
    return value ? number(*value) : Json(nullptr);
}

Json exposure_json(const Camera& camera) {
    const double white = white_luminance(camera);
    return {
        {"f_number", number(camera.f_number)},
        {"shutter_s", number(camera.shutter)},
        {"iso", number(camera.iso)},
        {"white_k", number(camera.white_k)},
        {"ev100", number(exposure_value(camera))},
        {"metered_lux", number(metered_illuminance(camera.f_number, camera.shutter, camera.iso))},
        {"white_luminance_cd_m2", number(white)},
        {"saturation_luminance_cd_m2", number(kSaturationHeadroom * white)}};
}

Json luminance_json(const LuminanceStatistics& l) {
    return {{"min", number(l.min)},
            {"max", number(l.max)},
            {"mean", number(l.mean)},
            {"mean_stderr", number(l.mean_stderr)},
            {"median", number(l.median)},
            {"p01", number(l.p01)},
            {"p05", number(l.p05)},
            {"p95", number(l.p95)},
            {"p99", number(l.p99)}};
}

Json stops_json(const StopsStatistics& stops) {
    return {{"first_stop", StopsStatistics::kFirstStop},
            {"bin_stops", StopsStatistics::kBinStops},
            {"histogram", stops.histogram},
            {"clipped_share", number(stops.clipped_share)},
            {"saturated_share", number(stops.saturated_share)},
            {"deep_shadow_share", number(stops.deep_shadow_share)}};
}

Json fixtures_json(const std::vector<FixtureShare>& fixtures) {
    Json list = Json::array();
    for (const FixtureShare& f : fixtures) {
        list.push_back({{"name", f.name},
                        {"share", number(f.share)},
                        {"mean_luminance", number(f.mean_luminance)}});
    }
    return list;
}

Json region_json(const RegionJudgement& region) {
    const auto& u = region.uniformity;
    const auto& p = region.pattern;
    using Optional = std::optional<double>;
    return {{"name", region.name},
            {"pixels", region.pixels},
            {"mean_luminance", number(region.mean_luminance)},
            {"mean_stderr", number(region.mean_stderr)},
            {"uniformity", number(u ? Optional(u->u0) : std::nullopt)},
            {"uniformity_stderr", number(u ? Optional(u->stderr_of_u0) : std::nullopt)},
            {"texture_stops", number(p ? Optional(p->texture_stops) : std::nullopt)},
            {"patch_cm", number(p ? p->patch_cm : std::nullopt)},
            {"patch_px", number(p ? p->patch_px : std::nullopt)},
            {"cover", number(p ? Optional(p->cover) : std::nullopt)},
            {"block_px", p ? Json(p->block_px) : Json(nullptr)}};
}

Json regions_json(const std::vector<RegionJudgement>& regions) {
    Json list = Json::array();
    for (const RegionJudgement& region : regions) list.push_back(region_json(region));
    return list;
}

}  // namespace

std::string stats_text(const Statistics& statistics,
                       const Scene& scene,
                       const RenderReport& report) {
    const Json json = {{"title", scene.title},
                       {"width", scene.camera.width},
                       {"height", scene.camera.height},
                       {"passes", report.passes},
                       {"seconds", number(report.seconds)},
                       {"rays", report.rays},
                       {"seed", report.seed},
                       {"nonfinite_samples", report.nonfinite_samples},
                       {"stopped_early", report.stopped_early},
                       {"transport", report.transport},
                       {"threads", report.threads},
                       {"exposure", exposure_json(scene.camera)},
                       {"luminance", luminance_json(statistics.luminance)},
                       {"stops", stops_json(statistics.stops)},
                       {"fixtures", fixtures_json(statistics.fixtures)},
                       {"meters", Json::array()},
                       {"regions", regions_json(statistics.regions)}};
    // Names come from the user's files and may not be UTF-8.
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

void write_stats(const std::string& path,
                 const Statistics& statistics,
                 const Scene& scene,
                 const RenderReport& report) {
    write_text(path, stats_text(statistics, scene, report));
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
