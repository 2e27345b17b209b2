// The pictures of the desk, as they are displayed.
#pragma once

#include "clean/coarse_light.h"
#include "develop/develop.h"
#include "develop/glare_frame.h"
#include "render/render_frame.h"

namespace dapple {

// That of a quick frame: fine, with coarse light. The result is one that has looked at finer points
// (RenderOptions::finer). `others`: light that is added to the result's; nullptr: none. Throws
// StoppedWork if the thread's StopLoops stops it.
Picture finer_picture(const RenderResult& result,
                      const Scene& scene,
                      const GlareFrame& glare,
                      const KeptLight* others);

// The light of a result, to be added to that of others.
KeptLight kept_light_of(const RenderResult& result, const Scene& scene);

Picture clean_picture(const CleanFrame& clean, const Camera& camera, const GlareFrame& glare);

}  // namespace dapple
