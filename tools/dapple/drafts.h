// Drafts: the frame with fewer pixels, one pass each. The first one takes about a second whatever
// the size of the frame, so a picture is there at once. They are also the result if the work is
// stopped before the frame's own first pass has anything to show.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "load_set.h"
#include "progress_line.h"
#include "render/render_frame.h"

namespace dapple {

// The size of the frame, which a draft changes and restores.
struct FrameSize {
    Camera camera;
    std::vector<Region> regions;

    explicit FrameSize(const Scene& scene) : camera(scene.camera), regions(scene.regions) {}
    void restore(Scene& scene) const {
        scene.camera = camera;
        scene.regions = regions;
    }
};

struct Draft {
    RenderResult result;
    int width = 0;  // px
};

// Pixels whose camera walks are traced. Of two results that are stopped in the first pass, the one
// with more of them shows more.
double traced_pixels(const RenderResult& result);

// The widths of the drafts of a frame, each three times the one before. None for a small frame.
std::vector<int> draft_widths(const Camera& camera);

// Renders the drafts of a frame and returns the last one with anything to show. The scene has its
// size while `on_draft` is called. `options` are those of the frame: drafts keep to its time limit,
// except the first one. Throws StoppedWork if `on_part` stops the first one.
std::optional<Draft> render_drafts(LoadedSet& set,
                                   const RenderOptions& options,
                                   ProgressLine& line,
                                   const std::function<void(const RenderResult&)>& on_draft);

}  // namespace dapple
