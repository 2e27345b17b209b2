#include "night/night_plan.h"

#include <filesystem>

#include "fingerprint.h"
#include "load_set.h"
#include "night/check_wishes.h"
#include "progress_line.h"
#include "set/absolute_paths.h"
#include "set/toml_text.h"
#include "set/variants/read_variants.h"
#include "variants/light_only.h"
#include "variants/night_end.h"

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

// The fingerprint is that of the text as written, so that it does not depend on where the folder
// is.
void check_variant(NightPlan& plan,
                   size_t index,
                   const RenderOptions& options,
                   Problems& problems) {
    NightVariant& v = plan.variants[index];
    Problems of_set;
    const std::string& path = plan.file.set_path;
    // Light alone changes nothing that rays meet.
    const bool only_light = v.film != index;
    std::optional<LoadedSet> whole;
    std::optional<Scene> scene;
    if (only_light) {
        scene = load_scene(v.set_text, path, plan.width, of_set);
    } else {
        whole = load_set_text(v.set_text, path, plan.width, of_set);
    }
    for (const Problem& problem : of_set.all()) {
        problems.add(plan.file.set_place, "variant \"" + v.variant.name + "\"", to_string(problem));
    }
    if (!scene && !whole) return;
    const Scene& found = whole ? whole->scene : *scene;
    v.fingerprint = fingerprint_of(v.as_written, plan.file.set_path, found, options);
    plan.megabytes += bytes_of(found) / 1e6;
    if (whole) plan.memory = more_of(plan.memory, night_memory(found, whole->world.triangles()));
}

void check_limits(const VariantsFile& file, Problems& problems) {
    const FileLimits& limits = file.limits;
    if (limits.until.empty() || read_time_of_day(limits.until)) return;
    problems.add(limits.until_place, "limits.until", "must be a time such as \"06:30\"");
}

// The set file of the variants. That it cannot be read is a mistake in the file of variants.
std::optional<std::string> text_of_set(const VariantsFile& file, Problems& problems) {
    try {
        return read_toml_text(file.set_path);
    } catch (const FileError& error) {
        problems.add(file.set_place, "set", error.what());
        return std::nullopt;
    }
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
    VariantsFile file = read_variants(variants_path, problems);
    check_limits(file, problems);
    if (!problems.empty()) return {};
    const std::vector<Variant> variants = choose_variants(file, problems);
    if (!problems.empty()) return {};
    const std::optional<std::string> text = text_of_set(file, problems);
    if (!text) return {};
    return plan_variants(std::move(file), *text, variants, width, options, problems);
}

NightPlan plan_variants(VariantsFile file,
                        const std::string& text,
                        const std::vector<Variant>& variants,
                        int width,
                        const RenderOptions& options,
                        Problems& problems) {
    NightPlan plan;
    plan.width = width;
    plan.file = std::move(file);
    plan.stem = set_stem(plan.file.set_path);
    const std::string folder =
        fs::absolute(plan.file.set_path).lexically_normal().parent_path().string();
    // The set itself must be right before anything in it is changed.
    const std::optional<Scene> base = load_scene(text, plan.file.set_path, width, problems);
    if (!base) return plan;
    check_wishes(plan.file, *base, problems);
    if (!problems.empty()) return plan;
    const std::vector<size_t> films = film_of_each(variants);
    ProgressLine line;
    size_t with_problems = 0;
    for (size_t i = 0; i < variants.size() && with_problems < kMostReported; ++i) {
        line.show_step("checking variant " + std::to_string(i + 1) + " of " +
                       std::to_string(variants.size()));
        const size_t before = problems.all().size();
        const std::string changed = set_text_of(text, variants[i], problems);
        plan.variants.push_back({variants[i], "", changed, films[i], 0});
        if (problems.all().size() == before) {
            plan.variants.back().set_text = with_absolute_paths(changed, folder);
            check_variant(plan, i, options, problems);
        }
        if (problems.all().size() > before) ++with_problems;
    }
    return plan;
}

}  // namespace dapple
