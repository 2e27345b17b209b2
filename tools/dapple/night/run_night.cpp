#include "night/run_night.h"

#include <filesystem>
#include <fstream>
#include <iostream>

#include "develop/develop.h"
#include "interrupt.h"
#include "judge/judge_film.h"
#include "load_set.h"
#include "make_run_report.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "output/write_exr.h"
#include "output/write_png.h"
#include "output/write_stats.h"
#include "progress_line.h"
#include "rebalance/rebalance.h"
#include "rebalance/settings.h"
#include "render/in_frame/find_in_frame.h"
#include "render/packing/find_lamp_places.h"
#include "render_files.h"
#include "variants/light_only.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;
using Time = std::chrono::system_clock::time_point;

bool is_over(const NightOptions& options) {
    return options.until && std::chrono::system_clock::now() >= *options.until;
}

nlohmann::json read_stats(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    nlohmann::json stats = nlohmann::json::parse(in, nullptr, false);
    return stats.is_object() ? stats : nlohmann::json();
}

constexpr int kNoMorePasses = 0;  // a turn that makes the results of the kept passes

// The variants of a night in their folders.
class Night {
  public:
    Night(const NightPlan& plan,
          const NightOptions& options,
          std::vector<NightVariantState>& states)
        : plan_(plan), options_(options), states_(states) {}

    // Returns false if it was stopped.
    bool render() {
        while (!interrupted() && !is_over(options_)) {
            const std::optional<NightTurn> turn = next_turn(rendered_states(), options_.limits);
            if (!turn) return true;
            take_turn(*turn);
            write();
        }
        return !interrupted();
    }

    // Makes the results of the kept passes. Returns false if it was stopped.
    bool develop_kept() {
        for (size_t i = 0; i < states_.size() && !interrupted(); ++i) {
            const bool has_film = plan_.variants[i].film == i && fs::exists(files_of(i).passes);
            if (has_film) take_turn({i, kNoMorePasses});
        }
        write();
        return !interrupted();
    }

    // Makes the variants that differ only in light from another one's film.
    void rebalance_others() {
        for (size_t i = 0; i < states_.size(); ++i) {
            const size_t film = plan_.variants[i].film;
            if (film == i || states_[film].state.passes == 0) continue;
            line_.show_step("rebalancing " + plan_.variants[i].variant.name);
            rebalance_one(i, film);
        }
        write();
    }

    void write_sheet() {
        line_.set_work("");
        line_.show_step("the contact sheet");
        write_night_sheet(options_.folder, plan_, states_);
    }

  private:
    // Variants that are not rendered count as finished.
    std::vector<NightState> rendered_states() const {
        std::vector<NightState> states;
        for (size_t i = 0; i < states_.size(); ++i) {
            states.push_back(states_[i].state);
            if (plan_.variants[i].film != i) states.back().failed = true;
        }
        return states;
    }

    void fail(size_t index, const std::string& why) {
        states_[index].state.failed = true;
        states_[index].failure = why;
        line_.end();
        std::cerr << plan_.variants[index].variant.name << ": failed: " << why << '\n';
    }

    RenderFiles files_of(size_t index) const {
        return {plan_.folder_of(options_.folder, index), plan_.stem};
    }

    void write_set(size_t index) const {
        const fs::path folder = plan_.folder_of(options_.folder, index);
        write_text((folder / (plan_.stem + ".toml")).string(), plan_.variants[index].set_text);
    }

    void take_turn(const NightTurn& turn) {
        const NightVariant& v = plan_.variants[turn.variant];
        const bool makes_passes = turn.passes > kNoMorePasses;
        const std::string goal = ", to " + std::to_string(turn.passes) + " passes: ";
        line_.set_work(v.variant.name + (makes_passes ? goal : ": "));
        line_.show_step("building the set");
        Problems problems;
        std::optional<LoadedSet> set =
            load_set_text(v.set_text, plan_.file.set_path, plan_.width, problems);
        if (!set) return fail(turn.variant, to_string(problems.all().front()));
        write_set(turn.variant);
        const RenderFiles files = files_of(turn.variant);
        RenderOptions render = options_.render;
        render.resume_from = read_kept_passes(files.passes, v.fingerprint);
        // A run that was killed may have kept more passes than it has told.
        const int kept =
            render.resume_from ? static_cast<int>(render.resume_from->frame.passes.count()) : 0;
        if (!makes_passes && kept == 0) return;
        render.passes = makes_passes ? std::max(turn.passes, kept + 1) : kept;
        render.on_part = [&](const WorkPart& part) {
            line_.show(part);
            return !interrupted() && !is_over(options_);
        };
        try {
            const RenderResult result = render_frame(set->scene, set->world, render);
            keep(turn.variant, *set, result);
        } catch (const StoppedWork&) {
            // Nothing was made in this turn.
        }
    }

    void keep(size_t index, const LoadedSet& set, const RenderResult& result) {
        if (result.first_pass_share < 1) return;
        const RenderFiles files = files_of(index);
        // First the passes: all else can be made from them.
        write_kept_passes(files.passes, result, plan_.variants[index].fingerprint);
        const CleanFrame clean = clean_frame_of(result, set.scene, true);
        RunReport report = make_run_report(options_.render, "full", result.film.passes(), result);
        report.clean_noise_percent = typical_error_percent(clean);
        const InFrame in_frame = find_in_frame(set.scene, set.world);
        write_film(index,
                   make_film_record({.scene = set.scene,
                                     .film = result.film,
                                     .first_hits = result.first_hits,
                                     .meters = &result.meters,
                                     .seen = &result.seen,
                                     .clean = &clean,
                                     .in_frame = &in_frame,
                                     .run = report,
                                     .lamp_places = find_lamp_places(set.scene, set.world)}));
    }

    void write_film(size_t index, const FilmRecord& film) {
        const RenderFiles files = files_of(index);
        write_png(files.png, develop_display({film.width(), film.height(), film.clean}));
        write_exr(files.exr, film);
        write_stats(files.stats, judge_film(film), film);
        NightVariantState& state = states_[index];
        state.state.passes = film.run.passes;
        state.state.noise_percent = film.run.noise_percent;
        state.stats = read_stats(files.stats);
    }

    void rebalance_one(size_t index, size_t film_of) {
        FilmRecord film = read_exr(files_of(film_of).exr);
        Problems problems;
        Settings settings;
        settings.set = light_settings(plan_.variants[index].variant);
        const std::vector<Fixture> wanted = apply_settings(film, settings, problems);
        if (!problems.empty()) return fail(index, to_string(problems.all().front()));
        const std::vector<LayerChange> changes = make_layer_changes(film, wanted);
        write_set(index);
        write_film(index, rebalance(std::move(film), wanted, changes));
    }

    void write() {
        rank_variants(plan_, states_);
        write_night_files(options_.folder, plan_, states_);
    }

    const NightPlan& plan_;
    const NightOptions& options_;
    std::vector<NightVariantState>& states_;
    ProgressLine line_;
};

}  // namespace

bool develop_night(const NightPlan& plan,
                   const NightOptions& options,
                   std::vector<NightVariantState>& states) {
    Night night(plan, options, states);
    if (!night.develop_kept()) return false;
    night.rebalance_others();
    night.write_sheet();
    return true;
}

bool run_night(const NightPlan& plan,
               const NightOptions& options,
               std::vector<NightVariantState>& states) {
    for (size_t i = 0; i < states.size(); ++i) {
        const RenderFiles files(plan.folder_of(options.folder, i), plan.stem);
        if (states[i].state.passes > 0) states[i].stats = read_stats(files.stats);
    }
    Night night(plan, options, states);
    const bool finished = night.render();
    if (!interrupted()) night.rebalance_others();
    night.write_sheet();
    return finished;
}

}  // namespace dapple
