// From a set file to a scene that can be rendered, with every problem reported.
#pragma once

#include <optional>
#include <string>

#include "base/problems.h"
#include "geometry/world.h"
#include "plausible/find_doubts.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

struct LoadedSet {
    SetDescription written;
    Scene scene;
    World world;
};

// Reads, checks and builds. `width` > 0 scales the frame to that many pixels across. Returns
// nothing if there are problems.
std::optional<LoadedSet> load_set(const std::string& path, int width, Problems& problems);

// The same for a text in memory; messages and relative paths are those of a set file at `path`.
std::optional<LoadedSet> load_set_text(const std::string& text,
                                       const std::string& path,
                                       int width,
                                       Problems& problems);

// Makes a set with a world that changes (geometry/world.h) that of another text. The first time
// there is none yet. False: there are problems, and the set must not be used before it has followed
// a text without any.
bool follow_set_text(const std::string& text,
                     const std::string& path,
                     std::optional<LoadedSet>& set,
                     Problems& problems);

// Reads and checks the set without building what rays meet.
std::optional<Scene> load_scene(const std::string& text,
                                const std::string& path,
                                int width,
                                Problems& problems);

// Prints problems and notes as lines on standard error.
void print_problems(const Problems& problems);

// Prints what can hardly be meant about the set (plausible/find_doubts.h) as warnings on standard
// error. Returns whether to stop: in strict mode, if there is any.
bool stops_at_doubts(const LoadedSet& set, bool strict);
Doubts doubts_about(const LoadedSet& set);
bool print_doubts(const Doubts& doubts, bool strict);

// "scenes/boathouse/boathouse.toml" → "boathouse"
std::string set_stem(const std::string& path);

}  // namespace dapple
