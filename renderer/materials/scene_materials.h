// Materials prepared for walks, in two steps.
//
// SceneMaterials is made once per scene. It holds what does not depend on the wavelengths drawn:
// lobe tables and the curves of glass. PassMaterials is made once per pass. It holds the spectra of
// every material at the pass's eight wavelengths. Each keeps a pointer to what it was made from.
#pragma once

#include <vector>

#include "materials/lobe_albedo.h"
#include "materials/sheet_lobe.h"
#include "scene/scene.h"
#include "spectrum/curve.h"
#include "spectrum/rgb_reflectance.h"
#include "spectrum/wavelengths.h"

namespace dapple {

struct PreparedMaterial {
    Material material;
    float alpha = 0;   // GGX width, roughness squared; 0 for a smooth surface
    LobeAlbedo lobe;   // kConductor, kCoated
    SheetLobe sheet;   // kSheet
    Curve index;       // kGlass, kThinGlass
    Curve absorption;  // kGlass, kThinGlass, per metre
    Curve measured;    // measured reflectance, if it has one
};

class SceneMaterials {
  public:
    explicit SceneMaterials(const Scene& scene);

    const std::vector<PreparedMaterial>& all() const { return materials_; }
    // Counts the materials of clear solids from 1; 0, as for air, for all other materials.
    size_t medium_number(MaterialId id) const { return medium_numbers_[static_cast<size_t>(id)]; }
    const Texture& texture(int i) const { return (*textures_)[static_cast<size_t>(i)]; }

  private:
    std::vector<PreparedMaterial> materials_;
    std::vector<size_t> medium_numbers_;
    const std::vector<Texture>* textures_;
};

// The boundary of two media; z > 0 is outside.
struct MediumBoundary {
    Spectrum eta{1.0F};  // index inside over index outside
    bool dispersive = false;

    MediumBoundary() = default;
    MediumBoundary(const Spectrum& index_outside, const Spectrum& index_inside);
};

class PassMaterials {
  public:
    PassMaterials(const SceneMaterials& scene, const Wavelengths& wavelengths);

    const PreparedMaterial& prepared(MaterialId id) const { return scene_->all()[at(id)]; }
    const Texture& texture(int i) const { return scene_->texture(i); }
    const RgbBasisSample& basis() const { return basis_; }

    const Spectrum& reflectance(MaterialId id) const { return spectra_[at(id)].reflectance; }
    // Index and absorption inside a solid of this material; 1 and 0 for other materials than glass.
    const Spectrum& index(MaterialId id) const { return spectra_[at(id)].index; }
    const Spectrum& absorption(MaterialId id) const { return spectra_[at(id)].absorption; }
    // The boundary between solids of these materials; kNoMaterial is air.
    const MediumBoundary& boundary(MaterialId outside, MaterialId inside) const {
        return boundaries_[medium_number(outside) * media_ + medium_number(inside)];
    }

  private:
    struct Spectra {
        Spectrum reflectance;  // without texture
        Spectrum index{1.0F};
        Spectrum absorption;  // per metre
    };
    static size_t at(MaterialId id) { return static_cast<size_t>(id); }
    // Air is 0.
    size_t medium_number(MaterialId id) const {
        return id == kNoMaterial ? 0 : scene_->medium_number(id);
    }

    const SceneMaterials* scene_;
    RgbBasisSample basis_;
    std::vector<Spectra> spectra_;
    size_t media_ = 1;                        // number of media: air and each solid of glass
    std::vector<MediumBoundary> boundaries_;  // [outside][inside]
};

}  // namespace dapple
