#include "render_with_progress.h"

#include <algorithm>

#include "drafts.h"
#include "interrupt.h"
#include "progress_line.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "variants/pace.h"

namespace dapple {

namespace {

// When to write a picture: after the first pass, then at growing intervals.
class PictureSchedule {
  public:
    bool due(double seconds) {
        if (seconds < next_) return false;
        next_ = seconds + std::clamp(seconds, 2.0, 15.0);
        return true;
    }

  private:
    double next_ = 0;
};

// The pictures that are shown while the work goes on.
struct ShownPictures {
    const LoadedSet& set;
    const PictureFile& file;
    LensGlare& lens_glare;

    void write(const RenderResult& result, const CleanFrame& clean) const {
        file.write(result, clean, set.scene.camera, lens_glare.sum_of(result.film, &clean));
    }
};

// When to keep the passes, so that it costs about one per cent of the time.
class KeptAtTimes {
  public:
    explicit KeptAtTimes(const PassKeeper& keep) : keep_(keep) {}
    void after_pass(const RenderResult& result) {
        const double begin = clock_.seconds();
        if (!keep_ || !pace_.is_due(begin)) return;
        keep_(result);
        pace_.done(begin, clock_.seconds());
    }

  private:
    const PassKeeper& keep_;
    Clock clock_;
    Pace pace_{kCheckpointShare, kCheckpointEvery, 0};
};

// Renders the frame. `seconds` is the time that its drafts have taken.
RenderResult render_whole_frame(const ShownPictures& pictures,
                                RenderOptions options,
                                double seconds,
                                const PassKeeper& keep_passes,
                                ProgressLine& line) {
    if (interrupted()) throw StoppedWork();
    if (options.seconds > 0) {
        options.seconds -= seconds;
        if (options.seconds <= 0) throw StoppedWork();
    }
    const Scene& scene = pictures.set.scene;
    PictureSchedule schedule;
    KeptAtTimes kept(keep_passes);
    std::optional<double> clean_noise;  // of the last picture
    options.on_pass = [&](const Progress& progress, const RenderResult& so_far) {
        // The last picture is written with the other results.
        const bool is_last = reached_a_limit(options, progress) || interrupted();
        if (!is_last) kept.after_pass(so_far);
        if (!is_last && schedule.due(progress.seconds)) {
            line.show_step("writing " + pictures.file.path);
            const CleanFrame clean = clean_frame_of(so_far, scene);
            clean_noise = typical_error_percent(clean);
            pictures.write(so_far, clean);
        }
        Progress shown = progress;
        if (!shown.clean_noise_percent) shown.clean_noise_percent = clean_noise;
        line.show(shown);
        return !interrupted();
    };
    return render_frame(scene, pictures.set.world, options);
}

}  // namespace

Rendered render_with_progress(LoadedSet& set,
                              RenderOptions options,
                              const PictureFile& picture,
                              LensGlare& lens_glare,
                              const PassKeeper& keep_passes) {
    ProgressLine line;
    options.on_part = [&](const WorkPart& part) {
        line.show(part);
        return !interrupted();
    };
    const Clock clock;
    const ShownPictures pictures{set, picture, lens_glare};
    std::optional<Draft> draft;
    if (!options.resume_from) {
        draft = render_drafts(set, options, line, [&](const RenderResult& result) {
            pictures.write(result, clean_frame_of(result, set.scene));
        });
    }
    options.finishes_first_pass = !draft;
    try {
        RenderResult result =
            render_whole_frame(pictures, options, clock.seconds(), keep_passes, line);
        const bool shows_more = !draft || traced_pixels(result) >= traced_pixels(draft->result);
        if (shows_more) return {std::move(result)};
    } catch (const StoppedWork&) {
        if (!draft) throw;
    }
    scale_frame(set.scene, draft->width);
    draft->result.stopped_early = interrupted();
    return {std::move(draft->result), draft->width};
}

}  // namespace dapple
