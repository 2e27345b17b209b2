// Materials from MTL entries, from [[surface]] and from the keys that glass and boards share.
#pragma once

#include <functional>
#include <string>

#include "base/problems.h"
#include "scene/build_scene.h"
#include "scene/scene.h"
#include "set/obj/obj_description.h"
#include "set/set_description.h"

namespace dapple {

// Index into Scene::textures of the picture at `path`, -1 where it cannot be read (a problem then
// stands at `place`). Each file is read once; colours are decoded from sRGB, data are not.
class TextureShelf {
  public:
    TextureShelf(const ImageReader& read_image, Scene& scene, Problems& problems)
        : read_image_(read_image), scene_(scene), problems_(problems) {}

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

// MTL knows paint: a Lambertian surface, perhaps with a texture and with holes. Colours beyond
// kMaxReflectance are brought down to it: `is_clamped` tells.
Material build_mtl_material(const MtlDescription& mtl, TextureShelf& textures, bool& is_clamped);

// Changes `material` to what [[surface]] says of it. What it leaves out stays as it is.
void apply_surface(const SurfaceDescription& surface, Material& material, Problems& problems);

// A thin sheet. `colour` is its reflectance where the set gives none.
void build_sheet(const SheetDescription& sheet,
                 const Field<Triple>& reflectance,
                 double default_transmission,
                 const std::function<Rgb(double transmission)>& colour,
                 Material& material,
                 Problems& problems);

// The keys of glass that [[glass]] and [[surface]] share.
void build_glass_material(const Field<std::string>& glass,
                          const Field<std::string>& tint,
                          const Field<double>& roughness,
                          const Field<int64_t>& priority,
                          Material& material,
                          Problems& problems);

}  // namespace dapple
