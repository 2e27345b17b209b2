// The textures of a scene; each picture is read once.
#pragma once

#include <string>
#include <vector>

#include "scene/build_scene.h"
#include "scene/scene.h"

namespace dapple {

struct TextureUse {
    PictureSource picture;
    bool srgb = true;   // colours are sRGB, data are not
    float cutoff = -1;  // texels become 1 from here on, and 0 below; -1: as they are
};

class TextureShelf {
  public:
    TextureShelf(const ImageReader& read_image, Scene& scene)
        : read_image_(read_image), scene_(scene) {}

    // The index into Scene::textures. Returns -1 if the picture cannot be read; `trouble` is then
    // one line with its path.
    int index(const TextureUse& use, std::string& trouble);

  private:
    struct Entry {
        TextureUse use;
        int index;
        std::string trouble;
    };
    const ImageReader& read_image_;
    Scene& scene_;
    std::vector<Entry> entries_;
};

}  // namespace dapple
