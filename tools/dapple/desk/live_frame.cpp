#include "desk/live_frame.h"

#include <algorithm>

#include "base/kept_parts.h"
#include "desk/frame_of_width.h"
#include "desk/live_picture.h"
#include "desk/show_schedule.h"
#include "output/write_png.h"
#include "render/in_frame/find_in_frame.h"
#include "render_files.h"

namespace dapple {

namespace {

constexpr int kMixedPasses = 8;    // after which a mixed frame gives way
constexpr int kThingsWidth = 480;  // px; things in the frame are looked for no finer
constexpr int kPassesBesideOthers = 3;
constexpr size_t kPartsOfDesk = size_t{512} << 20U;

}  // namespace

LiveFrame::LiveFrame(const Limits& limits, Listeners listeners)
    : limits_(limits), listeners_(std::move(listeners)), thread_([this] { work(); }) {}

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
        newest_ = text;
        next_ = std::move(text);
        paused_ = false;
    }
    wake_.notify_all();
}

void LiveFrame::pause() {
    const std::lock_guard lock(mutex_);
    paused_ = true;
}

void LiveFrame::give_way(bool others_work) {
    gives_way_ = others_work;
    if (others_work) return;
    {
        const std::lock_guard lock(mutex_);
        if (!next_) next_ = newest_;
    }
    wake_.notify_all();
}

bool LiveFrame::is_old(const LiveText& text) const {
    const std::lock_guard lock(mutex_);
    // Else nothing would be shown while the next steps of a drag keep coming.
    const bool drag_goes_on = text.is_moving && next_ && next_->is_moving;
    return ending_ || paused_ || (next_ && !drag_goes_on);
}

void LiveFrame::work() {
    const KeepParts parts(kPartsOfDesk, AtLimit::kDropOld);
    while (true) {
        LiveText text;
        {
            std::unique_lock lock(mutex_);
            wake_.wait(lock, [&] { return ending_ || next_; });
            if (ending_) return;
            text = std::move(*next_);
            next_.reset();
        }
        text.waited_s = text.since.seconds();
        try {
            const StopLoops stops([&] { return is_old(text); });
            render(text);
        } catch (const StoppedWork&) {
        } catch (const std::exception& error) {
            Problems problems;
            problems.add({text.path}, "", error.what());
            listeners_.on_problems(text.version, problems);
        }
    }
}

bool LiveFrame::goes_on(const LiveText& text) const {
    const bool is_whole = lit_.light_width > 0 && lit_.light_width == lit_.width;
    return !text.is_moving && is_whole && lit_.version == text.version;
}

// While a dimmer moves, the frame is mixed anew from the lights of the last one.
bool LiveFrame::show_light(const LiveText& text) {
    const std::optional<Picture> picture = light_.frame_of(text.text);
    if (!picture) return false;
    LivePicture mixed = lit_;
    mixed.version = text.version;
    mixed.is_mixed = true;
    mixed.png = png_bytes(*picture, text.is_moving ? PngPacking::kNone : PngPacking::kUsual);
    mixed.seconds = text.since.seconds();
    mixed.waited_s = text.waited_s;
    listeners_.on_picture(std::move(mixed));
    return true;
}

void LiveFrame::render(const LiveText& text) {
    const bool is_shown = goes_on(text);
    const bool is_mixed = !is_shown && show_light(text);
    if (is_mixed && text.is_moving) return;
    // A mixed frame gives way to one that shows at least as much.
    const int least_light = is_mixed ? lit_.light_width : 0;
    const Clock following;
    Problems problems;
    const bool is_right = follow_set_text(text.text, text.path, quick_, problems);
    listeners_.on_problems(text.version, problems);
    if (!is_right) return drag_.drop();
    drag_.follow(text.text, *quick_, text.is_moving);
    const Camera& camera = quick_->scene.camera;
    const int whole = std::min(camera.width, limits_.width);
    shape_ = static_cast<double>(camera.height) / camera.width;
    if (text.is_moving) return render_moving(text, whole, following.seconds());
    // The frame that is shown stays until there is a better one.
    if (is_shown) {
        if (lit_.passes < limits_.passes) render_at_rest(text, whole, lit_.passes + 1);
        return;
    }
    const auto is_of_use = [&](const QuickSize& size) {
        return size.step > 1 && size.light_width >= least_light;
    };
    const QuickSize first = pace_.rest_size(whole, shape_);
    if (is_of_use(first)) {
        const double before_s = following.seconds();
        const Clock drawing;
        render_quick(text, {.size = first, .is_anew = !pilots_, .keeps_light = false});
        pace_.learn(first, shape_, before_s, drawing.seconds());
    }
    listeners_.on_set(text.version, *quick_);
    const QuickSize better = LivePace::better_rest_size(whole);
    if (is_of_use(better)) render_quick(text, {.size = better, .is_anew = true});
    render_at_rest(text, whole, is_mixed ? std::min(lit_.passes, kMixedPasses) : 1);
}

void LiveFrame::render_moving(const LiveText& text, int whole, double following_s) {
    const bool is_split = pilots_ && drag_.fixture();
    LivePace& pace = is_split ? split_pace_ : pace_;
    const QuickSize size = pace.drag_size(whole, shape_);
    const QuickFrame frame{size, !pilots_, false, is_split};
    if (is_split && !drag_.others(size)) render_others(frame);
    const Clock drawing;
    render_quick(text, frame);
    pace.learn(size, shape_, following_s, drawing.seconds());
    const QuickSize better = LivePace::better_rest_size(std::min(whole, LivePace::kWidest));
    if (better.light_width > size.light_width) refine_while_still(text, better);
}

// The hand may hold still within a drag. Its next step stops this frame.
void LiveFrame::refine_while_still(const LiveText& text, const QuickSize& size) {
    LiveText still = text;
    still.is_moving = false;
    const StopLoops stops([&] { return is_old(still); });
    stop_if_asked();
    render_quick(text, {.size = size, .keeps_light = false});
}

void LiveFrame::render_quick(const LiveText& text, const QuickFrame& frame) {
    const FrameOfWidth scaled(quick_->scene, frame.size.light_width);
    std::vector<bool> dark;
    const KeptLight* others = nullptr;
    if (frame.is_split) {
        dark.assign(quick_->scene.fixtures.size(), true);
        dark[*drag_.fixture()] = false;
        others = drag_.others(frame.size);
    }
    RenderResult result = render_light(frame, dark);
    LensGlare lens_glare(quick_->scene, quick_->world);
    show_frame(text, *quick_, result, lens_glare, frame.keeps_light, others);
    drag_.keep_sight(std::move(result.fine));
}

// One pass from the world that changes.
RenderResult LiveFrame::render_light(const QuickFrame& frame, const std::vector<bool>& dark) {
    RenderOptions options;
    options.passes = 1;
    options.reads_meters = false;
    options.finer = frame.size.step;
    options.finds_glints = frame.size.step == 1;
    options.kept_sight = drag_.sight();
    options.dark = dark;
    if (!frame.is_anew) options.pilots = pilots_;
    RenderResult result = render_frame(quick_->scene, quick_->world, options);
    pilots_ = result.pilots;
    return result;
}

// Of all fixtures but the one that is dragged.
void LiveFrame::render_others(const QuickFrame& frame) {
    const FrameOfWidth scaled(quick_->scene, frame.size.light_width);
    std::vector<bool> dark(quick_->scene.fixtures.size(), false);
    dark[*drag_.fixture()] = true;
    RenderResult result = render_light(frame, dark);
    drag_.keep_others(frame.size, kept_light_of(result, quick_->scene));
    drag_.keep_sight(std::move(result.fine));
}

void LiveFrame::render_at_rest(const LiveText& text, int width, int first_passes) {
    Problems problems;
    std::optional<LoadedSet> set = load_set_text(text.text, text.path, 0, problems);
    if (!set) return;  // a file that the set names has changed just now
    const FrameOfWidth scaled(set->scene, width);
    RenderOptions options;
    options.passes = limits_.passes;
    ShowSchedule schedule;
    LensGlare lens_glare(set->scene, set->world);
    options.on_pass = [&](const Progress& progress, const RenderResult& result) {
        const bool gives_way = gives_way_ && progress.passes >= kPassesBesideOthers;
        const bool is_last = progress.passes == options.passes || gives_way;
        const bool is_enough =
            progress.passes >= first_passes || (is_last && lit_.version != text.version);
        if (is_enough && (is_last || schedule.due(progress.seconds))) {
            show_frame(text, *set, result, lens_glare, true);
        }
        if (progress.passes == 1) listeners_.on_doubts(text.version, doubts_about(*set));
        return !gives_way;
    };
    render_frame(set->scene, set->world, options);
}

void LiveFrame::show_frame(const LiveText& text,
                           const LoadedSet& set,
                           const RenderResult& result,
                           LensGlare& lens_glare,
                           bool keeps_light,
                           const KeptLight* others) {
    const bool is_finer = result.fine.step > 1;
    const Camera& camera = set.scene.camera;
    if (is_finer) {
        const GlareFrame glare = lens_glare.sum_of(result.film);
        send_picture(text, finer_picture(result, set.scene, glare, others), result, keeps_light);
        if (!keeps_light) return;
    }
    const CleanFrame clean = clean_frame_of(result, set.scene, keeps_light);
    const GlareFrame glare =
        keeps_light ? lens_glare.of(result.film, &clean) : lens_glare.sum_of(result.film, &clean);
    if (!is_finer) send_picture(text, clean_picture(clean, camera, glare), result, keeps_light);
    if (!keeps_light) return;
    look_for_things(text, set);
    RunReport run;
    run.passes = result.progress.passes;
    const auto film = std::make_shared<const FilmRecord>(
        make_film_record({.scene = set.scene,
                          .film = result.film,
                          .first_hits = result.first_hits,
                          .meters = &result.meters,
                          .seen = &result.seen,
                          .clean = &clean,
                          .glare = &glare,
                          .in_frame = in_frame_version_ == text.version ? &in_frame_ : nullptr,
                          .run = run}));
    light_.keep(text.text, film);
    listeners_.on_film(text, film);
}

void LiveFrame::send_picture(const LiveText& text,
                             const Picture& picture,
                             const RenderResult& result,
                             bool keeps_light) {
    LivePicture shown = {.version = text.version,
                         .width = picture.width,
                         .height = picture.height,
                         .shape = shape_,
                         .light_width = result.film.width(),
                         .passes = result.progress.passes,
                         .waited_s = text.waited_s,
                         .noise_percent = result.progress.noise_percent};
    if (keeps_light) lit_ = shown;
    shown.png = png_bytes(picture, result.fine.step > 1 ? PngPacking::kNone : PngPacking::kUsual);
    shown.seconds = text.since.seconds();
    listeners_.on_picture(std::move(shown));
}

void LiveFrame::look_for_things(const LiveText& text, const LoadedSet& set) {
    const bool is_better =
        in_frame_version_ != text.version ||
        (set.scene.camera.width > in_frame_.width && set.scene.camera.width <= kThingsWidth);
    if (text.is_moving || !is_better) return;
    in_frame_ = find_in_frame(set.scene, set.world);
    in_frame_version_ = text.version;
}

}  // namespace dapple
