#include "desk/live_frame.h"

#include <algorithm>

#include "drafts.h"
#include "output/write_png.h"
#include "render_files.h"
#include "scene/camera_and_measures/scale_frame.h"

namespace dapple {

namespace {

constexpr int kWidths[] = {160, 480};  // px, before the whole frame
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

void LiveFrame::render(const LiveText& text) {
    const Clock clock;
    Problems problems;
    std::optional<LoadedSet> set = load_set_text(text.text, path_, 0, problems);
    listeners_.on_problems(text.version, problems);
    if (!set || is_old()) return;
    if (!text.is_moving) listeners_.on_set(text.version, *set);
    const int whole = std::min(set->scene.camera.width, limits_.width);
    for (const int width : kWidths) {
        if (width * 3 / 2 > whole) break;
        if (!render_at(*set, text, clock, width)) return;
    }
    if (!text.is_moving) render_at(*set, text, clock, whole);
}

bool LiveFrame::render_at(LoadedSet& set, const LiveText& text, const Clock& clock, int width) {
    const FrameSize size(set.scene);
    const bool is_whole = width == std::min(size.camera.width, limits_.width);
    if (width != size.camera.width) scale_frame(set.scene, width);
    RenderOptions options;
    options.passes = is_whole && !text.is_moving ? limits_.passes : 1;
    options.part_every_s = kStopsWithin;
    options.on_part = [&](const WorkPart&) { return !is_old(); };
    ShowSchedule schedule;
    options.on_pass = [&](const Progress& progress, const RenderResult& result) {
        if (!schedule.due(progress.seconds) && progress.passes < options.passes) return !is_old();
        const CleanFrame clean = clean_frame_of(result, set.scene);
        const Picture picture = develop_display(develop_linear(clean, set.scene.camera));
        listeners_.on_picture({text.version,
                               picture.width,
                               picture.height,
                               progress.passes,
                               clock.seconds(),
                               progress.noise_percent,
                               png_bytes(picture)});
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
