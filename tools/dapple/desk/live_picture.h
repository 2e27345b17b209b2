// The pictures of the desk, as they are displayed.
#pragma once

#include "develop/develop.h"
#include "develop/glare_frame.h"
#include "render/render_frame.h"

namespace dapple {

// That of a quick frame: fine, with coarse light. The result is one that has looked at finer points
// (RenderOptions::finer). Throws StoppedWork if the thread's StopLoops stops it.
Picture finer_picture(const RenderResult& result, const Scene& scene, const GlareFrame& glare);

Picture clean_picture(const CleanFrame& clean, const Camera& camera, const GlareFrame& glare);

}  // namespace dapple
