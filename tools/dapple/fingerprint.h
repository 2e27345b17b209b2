// A hash of everything that decides a film's passes: the set, its models and the options.
#pragma once

#include <cstdint>
#include <string>

#include "render/render_frame.h"
#include "scene/scene.h"

namespace dapple {

// `text`: of the set file, which is or could be at `set_path`.
uint64_t fingerprint_of(const std::string& text,
                        const std::string& set_path,
                        const Scene& scene,
                        const RenderOptions& options);

}  // namespace dapple
