// Builds materials from those of models, from [[surface]], and from the keys of glass and of
// sheets.
#pragma once

#include <functional>
#include <string>

#include "base/problems.h"
#include "scene/scene.h"
#include "scene/texture_shelf.h"
#include "set/models/model_description.h"
#include "set/models/model_report.h"
#include "set/set_description.h"

namespace dapple {

// Adds a material to the scene and returns its index.
MaterialId add_material(Scene& scene, Material material);

// A model describes paint: a Lambertian surface, perhaps with a texture and with holes. Colours
// above kMaxReflectance are reduced to it; then `is_clamped` is set. A picture that cannot be read
// is noted, and a mid grey takes its place.
Material build_model_material(const ModelMaterial& written,
                              TextureShelf& textures,
                              ModelReport& report,
                              bool& is_clamped);

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
