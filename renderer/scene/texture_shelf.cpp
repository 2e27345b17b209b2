#include "scene/texture_shelf.h"

#include <cmath>

namespace dapple {

namespace {

bool is_same(const TextureUse& a, const TextureUse& b) {
    return a.picture.path == b.picture.path && a.picture.alpha == b.picture.alpha &&
           a.srgb == b.srgb && a.cutoff == b.cutoff;
}

Texture prepared(Texture texture, const TextureUse& use) {
    texture.srgb = use.srgb;
    if (use.cutoff < 0) return texture;
    const float least = 255.0F * use.cutoff;
    for (uint8_t& texel : texture.texels) {
        texel = static_cast<float>(texel) >= least ? uint8_t{255} : uint8_t{0};
    }
    return texture;
}

}  // namespace

int TextureShelf::index(const TextureUse& use, std::string& trouble) {
    for (const Entry& entry : entries_) {
        if (!is_same(entry.use, use)) continue;
        trouble = entry.trouble;
        return entry.index;
    }
    Entry entry{use, -1, ""};
    try {
        scene_.textures.push_back(prepared(read_image_(use.picture), use));
        entry.index = static_cast<int>(scene_.textures.size()) - 1;
    } catch (const FileError& error) {
        entry.trouble = error.what();
    }
    entries_.push_back(entry);
    trouble = entry.trouble;
    return entry.index;
}

}  // namespace dapple
