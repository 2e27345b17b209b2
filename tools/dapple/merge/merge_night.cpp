#include "merge/merge_night.h"

#include <algorithm>
#include <filesystem>
#include <iostream>

#include "base/parallel.h"
#include "interrupt.h"
#include "load_set.h"
#include "merge/film_parts.h"
#include "night/run_night.h"
#include "night/share_files.h"
#include "output/folder_lock.h"
#include "output/safe_file.h"
#include "progress_line.h"
#include "render_files.h"

namespace dapple {

namespace {

// Throws FileError if the shares are not those of one night.
void check_alike(const std::vector<ShareRecord>& shares) {
    const ShareRecord& first = shares.front();
    for (const ShareRecord& share : shares) {
        if (share.seed == first.seed && share.width == first.width) continue;
        throw FileError(share.folder,
                        "was made with another --seed or --width than " + first.folder +
                            "; only shares of one night can be added");
    }
}

// Joins the films of a night's variants, one after the other.
class FilmMerge {
  public:
    FilmMerge(const NightPlan& plan,
              const std::vector<ShareRecord>& shares,
              const std::string& output)
        : plan_(plan), shares_(shares), output_(output) {
        for (const ShareRecord& share : shares) passes_ = std::max(passes_, share.passes);
    }

    // Returns false if passes are missing, after a line about each film that misses some.
    bool run() {
        bool is_whole = true;
        for (size_t i = 0; i < plan_.variants.size() && !interrupted(); ++i) {
            if (plan_.variants[i].film != i) continue;
            line_.show_step("adding the films of " + plan_.variants[i].variant.name);
            is_whole = merge_variant(i) && is_whole;
        }
        return is_whole;
    }

  private:
    std::vector<FilmPart> parts_of(size_t index, std::vector<std::string>& left_out) const {
        std::vector<FilmPart> parts;
        for (const ShareRecord& share : shares_) {
            const RenderFiles files(plan_.folder_of(share.folder, index), plan_.stem);
            const std::optional<FilmPart> part = read_film_part(files.passes, left_out);
            if (!part) continue;
            if (part->fingerprint != plan_.variants[index].fingerprint) {
                throw FileError(files.passes,
                                "holds passes of another set, model, kit, size or seed than " +
                                    plan_.file.path + " now says");
            }
            parts.push_back(*part);
        }
        return parts;
    }

    bool merge_variant(size_t index) {
        std::vector<std::string> told;
        const std::string path = RenderFiles(plan_.folder_of(output_, index), plan_.stem).passes;
        const MergedFilm merged = merge_parts_into(parts_of(index, told), path);
        told.insert(told.end(), merged.left_out.begin(), merged.left_out.end());
        if (merged.film) {
            const NightVariant& v = plan_.variants[index];
            write_kept_passes(path, merged.film->frame, merged.film->meters, v.fingerprint);
        }
        const PassRanges made = merged.film ? merged.film->frame.passes : PassRanges();
        const PassRanges missing = missing_passes(made, {0, passes_});
        if (missing.count() > 0) {
            told.push_back(plan_.variants[index].variant.name + ": passes " + to_string(missing) +
                           " of " + std::to_string(passes_) + " are missing");
        }
        if (!told.empty()) line_.end();
        for (const std::string& line : told) std::cerr << line << '\n';
        return missing.count() == 0;
    }

    const NightPlan& plan_;
    const std::vector<ShareRecord>& shares_;
    std::string output_;
    int64_t passes_ = 0;
    ProgressLine line_;
};

}  // namespace

MergeResult merge_night(const MergeNightOptions& options) {
    const std::vector<ShareRecord> shares = read_shares(options.folders);
    check_alike(shares);
    NightOptions night;
    night.folder = options.output;
    night.render.seed = shares.front().seed;
    night.render.threads = options.threads;
    const std::string& file =
        options.variants_file.empty() ? shares.front().variants_file : options.variants_file;
    Problems problems;
    const NightPlan plan = plan_night(file, shares.front().width, night.render, problems);
    print_problems(problems);
    if (!problems.empty()) return MergeResult::kProblems;
    check_writable_folder(night.folder);
    const FolderLock lock(night.folder);
    watch_for_interrupt();
    const ThreadLimit threads(options.threads);
    const bool is_whole = FilmMerge(plan, shares, night.folder).run();
    std::vector<NightVariantState> states(plan.variants.size());
    if (develop_night(plan, night, states).interrupted) return MergeResult::kStopped;
    return is_whole ? MergeResult::kWhole : MergeResult::kMissing;
}

}  // namespace dapple
