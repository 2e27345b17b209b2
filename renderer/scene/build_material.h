// Builds materials from MTL entries, from [[surface]], and from the keys of glass and of sheets.
#pragma once

#include <functional>
#include <string>

#include "base/problems.h"
#include "scene/build_scene.h"
#include "scene/scene.h"
#include "set/models/model_description.h"
#include "set/set_description.h"

namespace dapple {

// Adds a material to the scene and returns its index.
MaterialId add_material(Scene& scene, Material material);

// The textures of a scene; each file is read once.
class TextureShelf {
  public:
    TextureShelf(const ImageReader& read_image, Scene& scene, Problems& problems)
        : read_image_(read_image), scene_(scene), problems_(problems) {}

    // The index into Scene::textures of the picture at `path`. Returns -1, with a problem at
    // `place`, if it cannot be read. Colours are sRGB, data are not.
    int index(const std::string& path, bool srgb, const Place& place, const std::string& key);

  private:
    struct Entry {
        std::string path;
        bool srgb;
        int index;
    };
    const ImageReader& read_image_;
    Scene& scene_;
    Problems& problems_;
    std::vector<Entry> entries_;
};

// MTL describes paint: a Lambertian surface, perhaps with a texture and with holes. Colours above
// kMaxReflectance are reduced to it; then `is_clamped` is set.
Material build_model_material(const ModelMaterial& mtl, TextureShelf& textures, bool& is_clamped);

// Changes `material` as [[surface]] says. Properties that it leaves out stay as they are.
void apply_surface(const SurfaceDescription& surface, Material& material, Problems& problems);

// A thin sheet. `colour` returns its reflectance if the set gives none.
void build_sheet(const SheetDescription& sheet,
                 const Field<Triple>& reflectance,
                 double default_transmission,
                 const std::function<Rgb(double transmission)>& colour,
                 Material& material,
                 Problems& problems);

// The keys that [[glass]] and [[surface]] share.
void build_glass_material(const Field<std::string>& glass,
                          const Field<std::string>& tint,
                          const Field<double>& roughness,
                          const Field<int64_t>& priority,
                          Material& material,
                          Problems& problems);

}  // namespace dapple
