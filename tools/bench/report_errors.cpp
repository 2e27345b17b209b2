#include "report_errors.h"

#include <cmath>
#include <string>

namespace dapple {

namespace {

// A number, or a dash if it is not finite.
std::string figure(const char* format, double value) {
    char text[32];
    std::snprintf(text, sizeof text, format, value);
    return std::isfinite(value) ? text : "-";
}

nlohmann::json region_json(const RegionError& error) {
    nlohmann::json region = {{"region", error.region},
                             {"mse", error.distance.mse},
                             {"rel_mse", error.distance.rel_mse},
                             {"energy", error.distance.energy},
                             {"energy_se", error.energy_se}};
    if (error.sharpness) {
        region["contrast"] = error.sharpness->contrast;
        region["blur_px"] = error.sharpness->blur_px;
    }
    return region;
}

}  // namespace

void print_references(std::FILE* to,
                      const Scene& scene,
                      const std::vector<References>& references) {
    for (size_t r = 0; r < references.size(); ++r) {
        const ReferenceQuality q = judge_references(references[r]);
        std::fprintf(to,
                     "reference of %-14s %6zu pixels, mean %s cd/m², MSE of one over mean² %s, "
                     "means differ by %s %%\n",
                     scene.regions[r].name.c_str(),
                     references[r].a.size(),
                     figure("%.4g", q.mean).c_str(),
                     figure("%.3g", q.relative_mse_of_one).c_str(),
                     figure("%.2g", 100 * q.mean_difference).c_str());
    }
    std::fprintf(
        to,
        "\ntransport     s  cpu s  load passes Mrays/s  region            relMSE   energy     "
        "± SE contrast blur px\n");
}

nlohmann::json references_json(const Scene& scene, const std::vector<References>& references) {
    nlohmann::json list = nlohmann::json::array();
    for (size_t r = 0; r < references.size(); ++r) {
        const ReferenceQuality q = judge_references(references[r]);
        list.push_back({{"region", scene.regions[r].name},
                        {"pixels", references[r].a.size()},
                        {"mean", q.mean},
                        {"mean_square", q.mean_square},
                        {"mse_of_one", q.mse_of_one},
                        {"mean_difference", q.mean_difference}});
    }
    return list;
}

void print_run(std::FILE* to,
               const Mode& mode,
               const Run& run,
               const std::vector<RegionError>& errors) {
    for (const RegionError& e : errors) {
        std::fprintf(to,
                     "%-10s %5.1f %6.1f %5.1f %6d %7.2f  %-14s %9s %8s %8s",
                     mode.name.c_str(),
                     run.seconds,
                     run.cpu_seconds,
                     run.load,
                     run.passes,
                     run.rays_per_second / 1e6,
                     e.region.c_str(),
                     figure("%.4g", e.distance.rel_mse).c_str(),
                     figure("%.4f", e.distance.energy).c_str(),
                     figure("%.4f", e.energy_se).c_str());
        if (e.sharpness) {
            std::fprintf(to,
                         " %8s %7.1f\n",
                         figure("%.3f", e.sharpness->contrast).c_str(),
                         e.sharpness->blur_px);
        } else {
            std::fprintf(to, " %8s %7s\n", "-", "-");
        }
    }
    std::fflush(to);
}

nlohmann::json run_json(const Mode& mode, const Run& run, const std::vector<RegionError>& errors) {
    nlohmann::json regions = nlohmann::json::array();
    for (const RegionError& e : errors) regions.push_back(region_json(e));
    return {{"transport", mode.name},
            {"seconds", run.seconds},
            {"cpu_seconds", run.cpu_seconds},
            {"load", run.load},
            {"passes", run.passes},
            {"rays_per_second", run.rays_per_second},
            {"regions", regions}};
}

}  // namespace dapple
