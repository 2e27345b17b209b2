#include "desk/live_frame.h"

#include <algorithm>

#include "drafts.h"
#include "glare/make_glare.h"
#include "output/write_png.h"
#include "render_files.h"
#include "scene/camera_and_measures/scale_frame.h"

namespace dapple {

namespace {

constexpr int kWidths[] = {160, 480};  // px, before the whole frame
constexpr int kMixedPasses = 8;        // after which a mixed frame gives way
constexpr double kStopsWithin = 0.02;  // s

// The frame is shown after the first passes, then at growing intervals.
class ShowSchedule {
  public:
    bool due(double seconds) {
        if (seconds < next_) return false;
        next_ = seconds + std::clamp(seconds / 4, 0.2, 5.0);
        return true;
    }

  private:
    double next_ = 0;
};

}  // namespace

LiveFrame::LiveFrame(std::string path, const Limits& limits, Listeners listeners)
    : path_(std::move(path)),
      limits_(limits),
      listeners_(std::move(listeners)),
      thread_([this] { work(); }) {}

LiveFrame::~LiveFrame() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    wake_.notify_all();
    thread_.join();
}

void LiveFrame::show(LiveText text) {
    {
        const std::lock_guard lock(mutex_);
        next_ = std::move(text);
    }
    wake_.notify_all();
}

bool LiveFrame::is_old() const {
    const std::lock_guard lock(mutex_);
    return ending_ || next_.has_value();
}

void LiveFrame::work() {
    while (true) {
        LiveText text;
        {
            std::unique_lock lock(mutex_);
            wake_.wait(lock, [&] { return ending_ || next_; });
            if (ending_) return;
            text = std::move(*next_);
            next_.reset();
        }
        try {
            render(text);
        } catch (const std::exception& error) {
            Problems problems;
            problems.add({path_}, "", error.what());
            listeners_.on_problems(text.version, problems);
        }
    }
}

// While a dimmer moves, the frame is mixed anew from the lights of the last one.
bool LiveFrame::show_light(const LiveText& text) {
    const Clock clock;
    const std::optional<Picture> picture = light_.frame_of(text.text);
    if (!picture) return false;
    LivePicture mixed = shown_;
    mixed.version = text.version;
    mixed.seconds = clock.seconds();
    mixed.is_mixed = true;
    mixed.png = png_bytes(*picture);
    listeners_.on_picture(std::move(mixed));
    return true;
}

void LiveFrame::render(const LiveText& text) {
    const Clock clock;
    const bool is_mixed = show_light(text);
    if (is_mixed && text.is_moving) return;
    // A mixed frame gives way to one that shows at least as much.
    const int first_width = is_mixed ? shown_.width : 0;
    const int first_passes = is_mixed ? std::min(shown_.passes, kMixedPasses) : 1;
    Problems problems;
    std::optional<LoadedSet> set = load_set_text(text.text, path_, 0, problems);
    listeners_.on_problems(text.version, problems);
    if (!set || is_old()) return;
    if (!text.is_moving) listeners_.on_set(text.version, *set);
    const int whole = std::min(set->scene.camera.width, limits_.width);
    for (const int width : kWidths) {
        if (width * 3 / 2 > whole) break;
        if (width < first_width) continue;
        if (!render_at(*set, text, clock, {width, 1})) return;
    }
    if (!text.is_moving) render_at(*set, text, clock, {whole, first_passes});
}

void LiveFrame::show_frame(const LiveText& text, const LoadedSet& set, const RenderResult& result) {
    const CleanFrame clean = clean_frame_of(result, set.scene, true);
    const GlareFrame glare = make_glare(set.scene, set.world, result.film);
    FilmRecord film = make_film_record({.scene = set.scene,
                                        .film = result.film,
                                        .first_hits = result.first_hits,
                                        .clean = &clean,
                                        .glare = &glare});
    const Picture picture = glare.is_there()
                                ? develop_display({film.width(), film.height(), shown_light(film)})
                                : develop_display(develop_linear(clean, set.scene.camera));
    shown_.width = picture.width;
    shown_.height = picture.height;
    LivePicture sent = shown_;
    sent.png = png_bytes(picture);
    listeners_.on_picture(std::move(sent));
    light_.keep(text.text, std::move(film));
}

bool LiveFrame::render_at(LoadedSet& set,
                          const LiveText& text,
                          const Clock& clock,
                          const Stage& stage) {
    const FrameSize size(set.scene);
    const bool is_whole = stage.width == std::min(size.camera.width, limits_.width);
    if (stage.width != size.camera.width) scale_frame(set.scene, stage.width);
    RenderOptions options;
    options.passes = is_whole && !text.is_moving ? limits_.passes : 1;
    options.part_every_s = kStopsWithin;
    options.on_part = [&](const WorkPart&) { return !is_old(); };
    ShowSchedule schedule;
    options.on_pass = [&](const Progress& progress, const RenderResult& result) {
        if (!schedule.due(progress.seconds) && progress.passes < options.passes) return !is_old();
        if (progress.passes < stage.first_passes && progress.passes < options.passes)
            return !is_old();
        shown_ = {.version = text.version,
                  .passes = progress.passes,
                  .seconds = clock.seconds(),
                  .noise_percent = progress.noise_percent};
        show_frame(text, set, result);
        return !is_old();
    };
    bool is_whole_done = false;
    try {
        is_whole_done = !render_frame(set.scene, set.world, options).stopped_early;
    } catch (const StoppedWork&) {
    }
    size.restore(set.scene);
    return is_whole_done;
}

}  // namespace dapple
