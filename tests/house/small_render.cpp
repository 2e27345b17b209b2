// Reads a set and renders three small passes of it on four threads, more than most machines have
// cores: what of the program runs on several threads, without the rest, which would take longer to
// compile than to check. For tsan_render.sh. Its argument is the set file, without textures.
#include <iostream>

#include "base/parallel.h"
#include "clean/clean_film.h"
#include "develop/develop.h"
#include "develop/exposure.h"
#include "geometry/world.h"
#include "render/render_frame.h"
#include "scene/build_scene.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "set/read_set.h"

namespace dapple {

namespace {

constexpr int kWidth = 96;  // px

Texture no_texture(const PictureSource&) {
    return {};
}

// Whether the frame shows something.
bool renders(const char* path) {
    Problems problems;
    Scene scene = build_scene(read_set(path, problems), no_texture, problems);
    for (const Problem& problem : problems.all()) std::cerr << to_string(problem) << '\n';
    if (!problems.empty()) return false;
    scale_frame(scene, kWidth);
    const World world(scene);
    RenderOptions options;
    options.passes = 3;
    options.threads = 4;
    const ThreadLimit threads(options.threads);
    const RenderResult result = render_frame(scene, world, options);
    const CleanFrame clean =
        clean_film(result.film, result.seen, white_luminance(scene.camera), true);
    const Picture picture = develop_display(develop_linear(clean, scene.camera));
    return result.film.passes() == options.passes && picture.width == kWidth;
}

}  // namespace

}  // namespace dapple

int main(int count, char** arguments) {
    return count == 2 && dapple::renders(arguments[1]) ? 0 : 1;
}
