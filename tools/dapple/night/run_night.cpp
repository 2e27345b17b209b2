#include "night/run_night.h"

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <utility>

#include "count_lit_through.h"
#include "fingerprint.h"
#include "interrupt.h"
#include "load_set.h"
#include "night/count_variants.h"
#include "night/morning.h"
#include "night/night_notice.h"
#include "night/night_progress.h"
#include "night/rebalance_variants.h"
#include "night/variant_results.h"
#include "output/safe_file.h"
#include "progress_line.h"
#include "variants/night_clock.h"
#include "variants/pace.h"

namespace dapple {

namespace {

constexpr double kSheetShare = 0.03;  // of the time, at most
constexpr double kSheetEvery = 60;    // s, at least
constexpr double kToldEvery = 5;      // s between lines for --status

constexpr int kNoMorePasses = 0;  // a turn that makes the results of the kept passes

// The variants of a night in their folders.
class Night {
  public:
    Night(const NightPlan& plan,
          const NightOptions& options,
          const NightEnd& end,
          std::vector<NightVariantState>& states)
        : plan_(plan), options_(options), end_(end), states_(states) {}

    void render() {
        while (!is_over()) {
            const std::vector<NightState> states = rendered_states();
            const std::optional<NightTurn> turn = next_turn(states, options_.limits);
            if (!turn) return;
            told_.turn_ends.reset();
            tell(turn->variant, states[turn->variant].passes, turn->passes);
            take_turn(*turn);
            write();
            if (sheets_.is_due(now())) write_sheet(false);
        }
    }

    // Makes the results of the kept passes.
    void develop_kept() {
        for (size_t i = 0; i < states_.size() && !interrupted(); ++i) {
            const bool has_film =
                plan_.variants[i].film == i && std::filesystem::exists(files_of(i).passes);
            if (has_film) take_turn({i, kNoMorePasses});
        }
        write();
    }

    // The sheet and the page of all so far, with the variants that are made by rebalancing.
    void write_sheet(bool at_end) {
        const double begin = now();
        line_.set_work("");
        if (!interrupted()) {
            line_.show_step("rebalancing");
            rebalance_variants(plan_, options_.folder, states_);
            write();
        }
        line_.show_step("the contact sheet and the page");
        try {
            write_morning(options_.folder, plan_, states_, at_end);
        } catch (const DiskError&) {
            throw;
        } catch (const FileError& error) {
            line_.end();
            std::cerr << "no contact sheet: " << error.what() << '\n';
            return;
        }
        told_.sheet = clock_.wall();
        told_.on_sheet = 0;
        for (const NightVariantState& s : states_) told_.on_sheet += s.state.passes > 0 ? 1 : 0;
        sheets_.done(begin, now());
    }

    void end() {
        count_variants(plan_, states_, options_.limits, told_);
        told_.running.clear();
        told_.finish.reset();
        told_.worked_s = now() - start_;
        write_night_progress(options_.folder, told_);
    }

  private:
    double now() const { return clock_.awake_s(); }

    // The end leaves time for the last sheet.
    bool is_over() const {
        if (interrupted()) return true;
        const std::optional<double> left = end_.seconds_left();
        return left && *left <= sheets_.last_cost();
    }

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

    // For --status.
    void tell(size_t index, int passes, int passes_to) {
        told_.running = plan_.variants[index].variant.name;
        told_.passes = passes;
        told_.passes_to = passes_to;
        count_variants(plan_, states_, options_.limits, told_);
        told_.worked_s = now() - start_;
        told_.stops = end_.on_the_wall();
        told_.finish.reset();
        const std::optional<double> left = passes_left(rendered_states(), options_.limits);
        if (left && passes_made_ > 0) {
            const double seconds = *left * turns_s_ / passes_made_;
            told_.finish = clock_.wall() + static_cast<std::time_t>(seconds);
        }
        write_night_progress(options_.folder, told_);
        told_at_ = now();
    }

    void take_turn(const NightTurn& turn) {
        const double begin = now();
        const int passes = states_[turn.variant].state.passes;
        try {
            render_turn(turn);
        } catch (const StoppedWork&) {
            // Nothing was made in this turn.
        } catch (const DiskError&) {
            throw;
        } catch (const std::exception& error) {
            fail(turn.variant, error.what());
        }
        passes_made_ += states_[turn.variant].state.passes - passes;
        turns_s_ += now() - begin;
    }

    void render_turn(const NightTurn& turn) {
        const NightVariant& v = plan_.variants[turn.variant];
        const bool makes_passes = turn.passes > kNoMorePasses;
        const std::string goal = ", to " + std::to_string(turn.passes) + " passes: ";
        line_.set_work(v.variant.name + (makes_passes ? goal : ": "));
        line_.show_step("building the set");
        Problems problems;
        std::optional<LoadedSet> set =
            load_set_text(v.set_text, plan_.file.set_path, plan_.width, problems);
        if (!set) return fail(turn.variant, to_string(problems.all().front()));
        const RenderOptions& given = options_.render;
        if (fingerprint_of(v.as_written, plan_.file.set_path, set->scene, given) != v.fingerprint) {
            return fail(turn.variant,
                        "a model, texture, kit or photometric file was edited in the night; "
                        "--restart makes all variants anew");
        }
        write_variant_set(plan_, options_.folder, turn.variant);
        RenderOptions render = render_options(turn);
        kept_passes_ = render.resume_from ? render.resume_from->frame.passes.count() : 0;
        if (render.passes == 0) return;  // nothing was kept and nothing is to be made
        const RenderResult result = render_frame(set->scene, set->world, render);
        render.resume_from.reset();  // its memory is needed for the results
        keep(turn.variant, *set, result);
    }

    // A run that was killed may have kept more passes than it has told, even more than the turn
    // needs; then none is made.
    RenderOptions render_options(const NightTurn& turn) {
        const RenderFiles files = files_of(turn.variant);
        RenderOptions render = options_.render;
        render.resume_from =
            read_kept_passes(files.passes, plan_.variants[turn.variant].fingerprint);
        const int64_t kept = render.resume_from ? render.resume_from->frame.passes.count() : 0;
        render.passes = std::max(turn.passes, static_cast<int>(kept));
        render.on_part = [this](const WorkPart& part) {
            line_.show(part);
            return !is_over();
        };
        const double begin = now();
        render.on_pass = [=, this](const Progress& progress, const RenderResult& so_far) {
            line_.show(progress);
            expect_end(
                begin, progress.passes - static_cast<int>(kept), turn.passes - progress.passes);
            if (progress.passes >= turn.passes || is_over()) return !is_over();
            if (checkpoints_.is_due(now())) keep_passes(turn.variant, so_far);
            if (now() - told_at_ > kToldEvery) tell(turn.variant, progress.passes, turn.passes);
            return true;
        };
        return render;
    }

    // When the turn ends, after `made` of its passes; and once, what the night's first pass says.
    void expect_end(double begin, int made, int left) {
        if (made < 1) return;
        const double seconds = now() - begin;
        told_.turn_ends = clock_.wall() + static_cast<std::time_t>(seconds / made * left);
        if (passes_made_ > 0 || std::exchange(first_is_told_, true)) return;
        line_.end();
        std::cerr << first_pass_notice(plan_, options_.limits, seconds, end_.seconds_left());
    }

    RenderFiles files_of(size_t index) const {
        return variant_files(plan_, options_.folder, index);
    }

    void keep_passes(size_t index, const RenderResult& result) {
        const double begin = now();
        write_kept_passes(files_of(index).passes, result, plan_.variants[index].fingerprint);
        kept_passes_ = result.film.passes();
        checkpoints_.done(begin, now());
    }

    void keep(size_t index, const LoadedSet& set, const RenderResult& result) {
        if (result.first_pass_share < 1) return;
        NightVariantState& state = states_[index];
        const int passes = result.film.passes();
        // First the passes: all else can be made from them.
        if (passes > kept_passes_) keep_passes(index, result);
        if (passes == state.state.passes) return;
        FilmRecord film = make_variant_record(set, options_.render, result);
        count_lit_through(set, options_.lit_through, result.seen, film);
        write_variant_film(files_of(index), std::move(film), ExrPacking::kZip, state);
    }

    void write() {
        rank_variants(plan_, states_);
        write_night_files(options_.folder, plan_, states_);
    }

    const NightPlan& plan_;
    const NightOptions& options_;
    const NightEnd& end_;
    std::vector<NightVariantState>& states_;
    const NightClock& clock_ = machine_clock();
    double start_ = clock_.awake_s();
    Pace checkpoints_{kCheckpointShare, kCheckpointEvery, start_};
    Pace sheets_{kSheetShare, kSheetEvery, start_};
    int64_t kept_passes_ = 0;  // of the present turn's film, on the disk
    double told_at_ = 0;
    NightProgress told_;
    double turns_s_ = 0;   // of all turns, awake
    int passes_made_ = 0;  // in them
    bool first_is_told_ = false;
    ProgressLine line_;
};

NightOutcome end_of(Night& night, const std::vector<NightVariantState>& states) {
    night.write_sheet(!interrupted());
    night.end();
    NightOutcome outcome{interrupted(), 0};
    for (const NightVariantState& s : states) outcome.failed += s.failure.empty() ? 0 : 1;
    return outcome;
}

}  // namespace

NightOutcome develop_night(const NightPlan& plan,
                           const NightOptions& options,
                           std::vector<NightVariantState>& states) {
    const NightEnd no_end(machine_clock(), std::nullopt, 0);
    Night night(plan, options, no_end, states);
    night.develop_kept();
    return end_of(night, states);
}

NightOutcome run_night(const NightPlan& plan,
                       const NightOptions& options,
                       const NightEnd& end,
                       std::vector<NightVariantState>& states) {
    for (size_t i = 0; i < states.size(); ++i) {
        if (states[i].state.passes == 0) continue;
        states[i].stats = read_variant_stats(variant_files(plan, options.folder, i));
    }
    Night night(plan, options, end, states);
    night.render();
    return end_of(night, states);
}

}  // namespace dapple
