// Builds the scene from a set description: checks every value, converts units, fills in missing
// values (defaults.h), reads the models that the set names, and resolves names to indices.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// A picture for a texture: on disk, or inside another file.
struct PictureSource {
    std::string path;                          // on disk, or how messages name it
    std::shared_ptr<const std::string> bytes;  // of a picture inside another file
    bool alpha = false;                        // its alpha alone, as one channel
};

// Reads a picture for a texture; throws FileError. It is a parameter because only the folder
// output/ reads picture files.
using ImageReader = std::function<Texture(const PictureSource& picture)>;

// Collects all problems of the set; a scene with problems must not be rendered. Notes do not
// prevent rendering.
Scene build_scene(const SetDescription& written, const ImageReader& read_image, Problems& problems);

}  // namespace dapple
