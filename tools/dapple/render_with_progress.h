// Renders a set with drafts, pictures of the passes so far and a progress line, until a limit is
// reached or Ctrl-C is pressed.
#pragma once

#include <functional>

#include "glare/make_glare.h"
#include "load_set.h"
#include "render/render_frame.h"
#include "render_files.h"

namespace dapple {

// The result of the frame, or of its last draft.
struct Rendered {
    RenderResult result;
    int draft_width = 0;  // px; 0: of the frame
};

// Keeps the passes so far on the disk.
using PassKeeper = std::function<void(const RenderResult&)>;

// The pictures have `lens_glare`. `keep_passes` is called now and then, at little cost; it may be
// empty. Throws StoppedWork if there is nothing to show. If the result is that of a draft, the
// scene is left with the draft's size.
Rendered render_with_progress(LoadedSet& set,
                              RenderOptions options,
                              const PictureFile& picture,
                              LensGlare& lens_glare,
                              const PassKeeper& keep_passes);

}  // namespace dapple
