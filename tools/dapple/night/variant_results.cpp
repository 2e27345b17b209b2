#include "night/variant_results.h"

#include <filesystem>
#include <fstream>

#include "develop/develop.h"
#include "glare/make_glare.h"
#include "judge/judge_film.h"
#include "make_run_report.h"
#include "output/round_layers.h"
#include "output/safe_file.h"
#include "output/write_png.h"
#include "output/write_stats.h"
#include "render/in_frame/find_in_frame.h"
#include "render/packing/find_lamp_places.h"

namespace dapple {

RenderFiles variant_files(const NightPlan& plan, const std::string& night_folder, size_t index) {
    return {plan.folder_of(night_folder, index), plan.stem};
}

void write_variant_set(const NightPlan& plan, const std::string& night_folder, size_t index) {
    const std::filesystem::path folder = plan.folder_of(night_folder, index);
    write_text((folder / (plan.stem + ".toml")).string(), plan.variants[index].set_text);
}

FilmRecord make_variant_record(const LoadedSet& set,
                               const RenderOptions& options,
                               const RenderResult& result) {
    const CleanFrame clean = clean_frame_of(result, set.scene, true);
    const GlareFrame glare = make_glare(set.scene, set.world, result.film, &clean);
    RunReport report = make_run_report(options, "full", result.film.passes(), result);
    report.clean_noise_percent = typical_error_percent(clean);
    const InFrame in_frame = find_in_frame(set.scene, set.world);
    return make_film_record({.scene = set.scene,
                             .film = result.film,
                             .first_hits = result.first_hits,
                             .meters = &result.meters,
                             .seen = &result.seen,
                             .clean = &clean,
                             .glare = &glare,
                             .in_frame = &in_frame,
                             .run = report,
                             .lamp_places = find_lamp_places(set.scene, set.world)});
}

void write_variant_film(const RenderFiles& files,
                        FilmRecord film,
                        ExrPacking packing,
                        NightVariantState& state) {
    round_layers(film);
    write_png(files.png, develop_display({film.width(), film.height(), shown_light(film)}));
    write_exr(files.exr, film, packing);
    write_stats(files.stats, judge_film(film), film);
    state.state.passes = film.run.passes;
    state.state.noise_percent = film.run.noise_percent;
    state.stats = read_variant_stats(files);
}

nlohmann::json read_variant_stats(const RenderFiles& files) {
    std::ifstream in(files.stats, std::ios::binary);
    nlohmann::json stats = nlohmann::json::parse(in, nullptr, false);
    return stats.is_object() ? stats : nlohmann::json();
}

}  // namespace dapple
