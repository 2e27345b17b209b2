#include "load_set.h"

#include <filesystem>
#include <iostream>

#include "geometry/check_placement.h"
#include "output/read_texture.h"
#include "scene/build_scene.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "set/read_set.h"

namespace dapple {

std::optional<LoadedSet> load_set(const std::string& path, int width, Problems& problems) {
    const SetDescription set = read_set(path, problems);
    Scene scene = build_scene(set, read_texture, problems);
    if (!problems.empty()) return std::nullopt;
    if (width > 0) scale_frame(scene, width);
    World world(scene);
    check_placement(scene, world, problems);
    if (!problems.empty()) return std::nullopt;
    return LoadedSet{std::move(scene), std::move(world)};
}

void print_problems(const Problems& problems) {
    for (const Problem& problem : problems.all()) std::cerr << to_string(problem) << '\n';
    for (const Problem& note : problems.notes()) std::cerr << "note: " << to_string(note) << '\n';
}

std::string set_stem(const std::string& path) {
    return std::filesystem::path(path).stem().string();
}

}  // namespace dapple
