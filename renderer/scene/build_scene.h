// From a set description to the scene: checks every value, converts units once, fills in what is
// left out (defaults.h), reads the OBJ models that the set names, and resolves names to indices.
#pragma once

#include <functional>
#include <string>

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// Reads a picture for a texture; throws FileError. Handed in, because files of pictures are known
// to the folder output/ only.
using ImageReader = std::function<Texture(const std::string& path)>;

// All problems of the set are collected; a scene that has any must not be rendered. Notes say what
// the user should know but that stops nothing.
Scene build_scene(const SetDescription& set, const ImageReader& read_image, Problems& problems);

}  // namespace dapple
