#include "night/night_plan.h"

#include <filesystem>

#include "fingerprint.h"
#include "load_set.h"
#include "progress_line.h"
#include "set/absolute_paths.h"
#include "set/toml_text.h"
#include "set/variants/read_variants.h"
#include "variants/light_only.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr size_t kMostReported = 1;  // variants whose problems are told at a time

// Bytes on the disk: the film's sums and statistics, and the layers of the EXR.
double bytes_of(const Scene& scene) {
    const double pixels = static_cast<double>(scene.camera.width) * scene.camera.height;
    const double groups = 1.5 * static_cast<double>(scene.fixtures.size());
    return pixels * (groups * (3 * 8 + 3 * 4 + 3 * 2) + 96 + 60);
}

// Every variant's set, as far as it can be checked without building what rays meet. `as_written`
// has the paths of the set file, so that the fingerprint does not depend on where the folder is.
void check_variant(NightPlan& plan,
                   size_t index,
                   const std::string& as_written,
                   const RenderOptions& options,
                   Problems& problems) {
    NightVariant& v = plan.variants[index];
    Problems of_set;
    const std::optional<Scene> scene =
        load_scene(v.set_text, plan.file.set_path, plan.width, of_set);
    for (const Problem& problem : of_set.all()) {
        problems.add(plan.file.set_place, "variant \"" + v.variant.name + "\"", to_string(problem));
    }
    if (!scene) return;
    v.fingerprint = fingerprint_of(as_written, plan.file.set_path, *scene, options);
    plan.megabytes += bytes_of(*scene) / 1e6;
}

}  // namespace

size_t NightPlan::films() const {
    size_t count = 0;
    for (size_t i = 0; i < variants.size(); ++i) count += variants[i].film == i ? 1 : 0;
    return count;
}

std::string NightPlan::folder_of(const std::string& night_folder, size_t variant) const {
    return (fs::path(night_folder) / variants[variant].variant.folder).string();
}

NightPlan plan_night(const std::string& variants_path,
                     int width,
                     const RenderOptions& options,
                     Problems& problems) {
    NightPlan plan;
    plan.width = width;
    plan.file = read_variants(variants_path, problems);
    if (!problems.empty()) return plan;
    const std::vector<Variant> variants = choose_variants(plan.file, problems);
    if (!problems.empty()) return plan;
    plan.stem = set_stem(plan.file.set_path);
    const std::string text = read_toml_text(plan.file.set_path);
    const std::string folder =
        fs::absolute(fs::path(plan.file.set_path).parent_path()).lexically_normal().string();
    // The set itself must be right before anything in it is changed.
    if (!load_scene(text, plan.file.set_path, width, problems)) return plan;
    const std::vector<size_t> films = film_of_each(variants);
    ProgressLine line;
    size_t with_problems = 0;
    for (size_t i = 0; i < variants.size() && with_problems < kMostReported; ++i) {
        line.show_step("checking variant " + std::to_string(i + 1) + " of " +
                       std::to_string(variants.size()));
        const size_t before = problems.all().size();
        const std::string changed = set_text_of(text, variants[i], problems);
        plan.variants.push_back({variants[i], "", films[i]});
        if (problems.all().size() == before) {
            plan.variants.back().set_text = with_absolute_paths(changed, folder);
            check_variant(plan, i, changed, options, problems);
        }
        if (problems.all().size() > before) ++with_problems;
    }
    return plan;
}

}  // namespace dapple
