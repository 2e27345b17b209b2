#include "drafts.h"

#include "scene/camera_and_measures/scale_frame.h"

namespace dapple {

namespace {

constexpr double kSmallFrame = 160'000;  // px; the first pass of such a frame takes about a second
constexpr double kFirstDraft = 50'000;   // px
constexpr int kGrow = 3;

// One pass at the scene's present size; nothing if it is stopped.
std::optional<RenderResult> render_draft(const LoadedSet& set,
                                         const RenderOptions& frame,
                                         double seconds) {
    RenderOptions options = frame;
    options.passes = 1;
    options.noise_percent = options.clean_noise_percent = 0;
    options.seconds = seconds;
    options.finishes_first_pass = !(seconds > 0);
    options.on_pass = nullptr;
    try {
        return render_frame(set.scene, set.world, options);
    } catch (const StoppedWork&) {
        return std::nullopt;
    }
}

}  // namespace

double traced_pixels(const RenderResult& result) {
    return result.first_pass_share * result.film.pixels();
}

std::vector<int> draft_widths(const Camera& camera) {
    const double pixels = static_cast<double>(camera.width) * camera.height;
    std::vector<int> widths;
    if (pixels <= kSmallFrame) return widths;
    const double scale = std::sqrt(kFirstDraft / pixels);
    for (auto width = std::max(1, static_cast<int>(camera.width * scale));
         width <= camera.width / 2;
         width *= kGrow) {
        widths.push_back(width);
    }
    return widths;
}

std::optional<Draft> render_drafts(LoadedSet& set,
                                   const RenderOptions& options,
                                   ProgressLine& line,
                                   const std::function<void(const RenderResult&)>& on_draft) {
    const FrameSize size(set.scene);
    std::optional<Draft> last;
    const Clock clock;
    for (const int width : draft_widths(size.camera)) {
        const double left = options.seconds - clock.seconds();
        if (last && options.seconds > 0 && left <= 0) break;
        line.set_work("draft of " + std::to_string(width) + " px: ");
        scale_frame(set.scene, width);
        const double limit = last && options.seconds > 0 ? left : 0;
        std::optional<RenderResult> result = render_draft(set, options, limit);
        if (result && last && traced_pixels(*result) < traced_pixels(last->result)) result.reset();
        if (result) on_draft(*result);
        size.restore(set.scene);
        if (!result && !last) throw StoppedWork();
        if (!result) break;
        last.emplace(Draft{std::move(*result), width});
    }
    line.set_work("");
    return last;
}

}  // namespace dapple
