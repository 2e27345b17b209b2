#include "load_set.h"

#include <filesystem>
#include <iostream>

#include "base/kept_parts.h"
#include "geometry/check_placement.h"
#include "output/read_texture.h"
#include "scene/build_scene.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "set/read_set.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

// A picture that was read before is not decoded again.
Texture read_kept_texture(const PictureSource& picture) {
    const std::string content = content_key(picture.path);
    if (content.empty() || picture.bytes) return read_texture(picture);  // which says why
    return *kept_or_made<Texture>(
        (picture.alpha ? "alpha " : "picture ") + picture.path + " " + content,
        [&] { return read_texture(picture); },
        [](const Texture& texture) { return texture.texels.size(); });
}

std::optional<Scene> build(const SetDescription& set, int width, Problems& problems) {
    Scene scene = build_scene(set, read_kept_texture, problems);
    if (!problems.empty()) return std::nullopt;
    if (width > 0) scale_frame(scene, width);
    return scene;
}

}  // namespace

std::optional<Scene> load_scene(const std::string& text,
                                const std::string& path,
                                int width,
                                Problems& problems) {
    return build(read_set_text(text, path, problems), width, problems);
}

std::optional<LoadedSet> load_set_text(const std::string& text,
                                       const std::string& path,
                                       int width,
                                       Problems& problems) {
    SetDescription written = read_set_text(text, path, problems);
    std::optional<Scene> scene = build(written, width, problems);
    if (!scene) return std::nullopt;
    World world(*scene);
    check_placement(*scene, world, problems);
    if (!problems.empty()) return std::nullopt;
    return LoadedSet{std::move(written), std::move(*scene), std::move(world)};
}

bool follow_set_text(const std::string& text,
                     const std::string& path,
                     std::optional<LoadedSet>& set,
                     Problems& problems) {
    SetDescription written = read_set_text(text, path, problems);
    std::optional<Scene> scene = build(written, 0, problems);
    if (!scene) return false;
    if (set) {
        set->written = std::move(written);
        set->scene = std::move(*scene);
        set->world.change_to(set->scene);
    } else {
        World world(*scene, WorldUse::kChanging);
        set.emplace(LoadedSet{std::move(written), std::move(*scene), std::move(world)});
    }
    check_placement(set->scene, set->world, problems);
    return problems.empty();
}

std::optional<LoadedSet> load_set(const std::string& path, int width, Problems& problems) {
    return load_set_text(read_toml_text(path), path, width, problems);
}

void print_problems(const Problems& problems) {
    for (const Problem& problem : problems.all()) std::cerr << to_string(problem) << '\n';
    for (const Problem& note : problems.notes()) std::cerr << "note: " << to_string(note) << '\n';
}

Doubts doubts_about(const LoadedSet& set) {
    return find_doubts({set.written, set.scene, set.world});
}

bool print_doubts(const Doubts& doubts, bool strict) {
    for (const Doubt& doubt : doubts) std::cerr << "warning: " << to_string(doubt) << '\n';
    return strict && !doubts.empty();
}

bool stops_at_doubts(const LoadedSet& set, bool strict) {
    return print_doubts(doubts_about(set), strict);
}

std::string set_stem(const std::string& path) {
    return std::filesystem::path(path).stem().string();
}

}  // namespace dapple
