#include "night/run_share.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "interrupt.h"
#include "load_set.h"
#include "night/share_files.h"
#include "progress_line.h"
#include "render_files.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

// Passes are kept after this long, or after fifty times what keeping them took.
constexpr double kKeepEvery = 20;  // s
constexpr double kKeepShare = 0.02;

// Keeps the passes of a render from time to time.
class Keeper {
  public:
    Keeper(std::string path, uint64_t fingerprint)
        : path_(std::move(path)), fingerprint_(fingerprint) {}

    void keep_if_due(const RenderResult& result) {
        if (clock_.seconds() >= due_) keep(result);
    }
    void keep(const RenderResult& result) {
        const double start = clock_.seconds();
        write_kept_passes(path_, result, fingerprint_);
        const double end = clock_.seconds();
        due_ = end + std::max(kKeepEvery, (end - start) / kKeepShare);
    }

  private:
    std::string path_;
    uint64_t fingerprint_;
    Clock clock_;
    double due_ = kKeepEvery;
};

class ShareRun {
  public:
    ShareRun(const NightPlan& plan,
             const NightOptions& options,
             const NightEnd& end,
             const Share& share)
        : plan_(plan), options_(options), end_(end) {
        record_ = {share_folder(options.folder, share),
                   share,
                   options.limits.passes,
                   fs::absolute(plan.file.path).lexically_normal().string(),
                   plan.width,
                   options.render.seed};
        for (const ShareUnit& unit : plan_share(plan, options.limits.passes, share)) {
            units_.push_back({unit, 0, ""});
        }
    }

    bool run() {
        for (ShareUnitState& u : units_) u.made = kept_passes(u);
        write_share(record_, plan_, units_);
        while (const std::optional<NightTurn> turn = next()) {
            if (is_over()) return false;
            render(units_[turn->variant], turn->passes);
            write_share(record_, plan_, units_);
        }
        return true;
    }

  private:
    bool has_end() const { return end_.seconds_left().has_value(); }

    bool is_over() const { return interrupted() || (has_end() && *end_.seconds_left() <= 0); }

    std::string passes_path(const ShareUnitState& u) const {
        return RenderFiles(plan_.folder_of(record_.folder, u.unit.variant), plan_.stem).passes;
    }

    // What an earlier run has kept; 0 if it cannot be read.
    int64_t kept_passes(const ShareUnitState& u) const {
        std::ifstream in(passes_path(u), std::ios::binary);
        const auto found = read_checkpoint_head(in);
        const auto* const head = std::get_if<CheckpointHead>(&found);
        return head ? head->passes.count() : 0;
    }

    // The unit whose turn it is, and how many passes it then has. Nothing: all are done.
    std::optional<NightTurn> next() const {
        std::vector<NightState> states;
        for (const ShareUnitState& u : units_) {
            const bool is_done = !u.failure.empty() || u.made >= u.unit.passes;
            states.push_back({static_cast<int>(u.made), std::nullopt, is_done});
        }
        std::optional<NightTurn> turn = next_turn(states, {});
        if (!turn) return turn;
        const int whole = static_cast<int>(units_[turn->variant].unit.passes);
        turn->passes = has_end() ? std::min(turn->passes, whole) : whole;
        return turn;
    }

    void fail(ShareUnitState& u, const std::string& why) {
        u.failure = why;
        line_.end();
        std::cerr << plan_.variants[u.unit.variant].variant.name << ": failed: " << why << '\n';
    }

    void check_kept(const ShareUnitState& u, const Checkpoint& kept) const {
        const PassRanges wanted({u.unit.first_pass, u.unit.first_pass + u.unit.passes});
        if (wanted.contains(kept.frame.passes)) return;
        throw FileError(passes_path(u),
                        "holds passes " + to_string(kept.frame.passes) +
                            ", and this share makes passes " + to_string(wanted) +
                            ": the night was shared out with another --passes; give another "
                            "folder, or --restart");
    }

    void render(ShareUnitState& u, int passes) {
        const NightVariant& v = plan_.variants[u.unit.variant];
        line_.set_work(v.variant.name + ", pass " + std::to_string(u.unit.first_pass + 1) + " to " +
                       std::to_string(u.unit.first_pass + passes) + ": ");
        line_.show_step("building the set");
        RenderOptions render = options_.render;
        render.resume_from = read_kept_passes(passes_path(u), v.fingerprint);
        if (render.resume_from) check_kept(u, *render.resume_from);
        Problems problems;
        std::optional<LoadedSet> set =
            load_set_text(v.set_text, plan_.file.set_path, plan_.width, problems);
        if (!set) return fail(u, to_string(problems.all().front()));
        Keeper keeper(passes_path(u), v.fingerprint);
        render.first_pass = u.unit.first_pass;
        render.passes = passes;
        render.on_part = [&](const WorkPart& part) {
            line_.show(part);
            return !is_over();
        };
        render.on_pass = [&](const Progress&, const RenderResult& result) {
            keeper.keep_if_due(result);
            return true;
        };
        try {
            const RenderResult result = render_frame(set->scene, set->world, render);
            if (result.first_pass_share < 1) return;
            keeper.keep(result);
            u.made = result.film.passes();
        } catch (const StoppedWork&) {
            // Nothing was made.
        }
    }

    const NightPlan& plan_;
    const NightOptions& options_;
    const NightEnd& end_;
    ShareRecord record_;
    std::vector<ShareUnitState> units_;
    ProgressLine line_;
};

}  // namespace

std::vector<ShareUnit> plan_share(const NightPlan& plan, int64_t passes, const Share& share) {
    std::vector<size_t> films;
    for (size_t i = 0; i < plan.variants.size(); ++i) {
        if (plan.variants[i].film == i) films.push_back(i);
    }
    return units_of_share(films, passes, share);
}

bool run_share(const NightPlan& plan,
               const NightOptions& options,
               const NightEnd& end,
               const Share& share) {
    return ShareRun(plan, options, end, share).run();
}

}  // namespace dapple
