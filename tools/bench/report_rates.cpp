#include "report_rates.h"

namespace dapple {

namespace {

double million(uint64_t n) {
    return static_cast<double>(n) / 1e6;
}

void print_speed(std::FILE* to, const Rates& r) {
    std::fprintf(to,
                 "%d thread%s: %.2f passes/s, %.2f Mrays/s; the kernels alone %.2f Mrays/s\n"
                 "  a pass, million rays: light walks %.2f steps %.2f joins, camera and meter "
                 "walks %.2f steps %.2f joins\n",
                 r.threads,
                 r.threads == 1 ? "" : "s",
                 r.passes_per_s,
                 r.rays_per_s / 1e6,
                 r.raw_rays_per_s / 1e6,
                 million(r.light_steps),
                 million(r.light_joins),
                 million(r.camera_steps),
                 million(r.camera_joins));
}

void print_stages(std::FILE* to, const Rates& r) {
    std::fprintf(to,
                 "  its time by stage: light walks %.0f %%, photon map %.1f %%, camera walks "
                 "%.0f %%, meters %.1f %%, film %.1f %%\n",
                 100 * r.light,
                 100 * r.photon_map,
                 100 * r.camera,
                 100 * r.meters,
                 100 * r.film);
}

void print_parts(std::FILE* to, const Rates& r) {
    const PartTimes& of_time = r.parts->of_time;
    std::fprintf(to,
                 ", photon grid %.1f %% (building %.1f, gathering %.1f), splats %.1f %%\n"
                 "  splats of a pass: %.2f million; laid out again alone %.1f %% (footprints %.1f, "
                 "adding to the film %.1f), as points %.1f %%",
                 100 * (r.photon_map + of_time.gathering),
                 100 * r.photon_map,
                 100 * of_time.gathering,
                 100 * of_time.splats,
                 million(r.parts->splat_count),
                 100 * of_time.splats_alone,
                 100 * of_time.footprints,
                 100 * (of_time.splats_alone - of_time.footprints),
                 100 * of_time.points);
}

}  // namespace

void print_rates(std::FILE* to, const Rates& r) {
    print_speed(to, r);
    print_stages(to, r);
    std::fprintf(to, "  its time by work: kernels %.0f %%", 100 * r.share_of_raw());
    if (r.parts) print_parts(to, r);
    std::fprintf(to,
                 "\n  memory: photons of a pass %.0f MB, film %.1f MB for each light group\n",
                 static_cast<double>(r.photon_bytes) / 1e6,
                 static_cast<double>(r.film_bytes_per_group) / 1e6);
    std::fflush(to);
}

nlohmann::json to_json(const Rates& r) {
    nlohmann::json share_of_time = {{"light", r.light},
                                    {"photon_map", r.photon_map},
                                    {"camera", r.camera},
                                    {"meters", r.meters},
                                    {"film", r.film},
                                    {"kernels", r.share_of_raw()}};
    nlohmann::json report = {{"threads", r.threads},
                             {"passes_per_s", r.passes_per_s},
                             {"rays_per_s", r.rays_per_s},
                             {"raw_rays_per_s", r.raw_rays_per_s},
                             {"share_of_raw", r.share_of_raw()},
                             {"photon_bytes", r.photon_bytes},
                             {"film_bytes_per_group", r.film_bytes_per_group},
                             {"rays_per_pass",
                              {{"light_steps", r.light_steps},
                               {"light_joins", r.light_joins},
                               {"camera_steps", r.camera_steps},
                               {"camera_joins", r.camera_joins}}}};
    if (r.parts) {
        const PartTimes& of_time = r.parts->of_time;
        share_of_time["splats"] = of_time.splats;
        share_of_time["splats_alone"] = of_time.splats_alone;
        share_of_time["splat_footprints"] = of_time.footprints;
        share_of_time["splats_as_points"] = of_time.points;
        share_of_time["gathering"] = of_time.gathering;
        report["splats_per_pass"] = r.parts->splat_count;
    }
    report["share_of_time"] = std::move(share_of_time);
    return report;
}

}  // namespace dapple
