#include "materials/scene_materials.h"

#include "materials/coated.h"
#include "materials/glass_catalogue.h"

namespace dapple {

namespace {

bool is_measured(const Material& material) {
    return material.measured != MeasuredReflectance::kNone;
}

PreparedMaterial prepare(const Material& material) {
    PreparedMaterial p{material, square(material.roughness), {}, {}, {}, {}, {}};
    if (p.alpha < kSmoothAlpha) p.alpha = 0;
    if (is_measured(material)) p.measured = measured_reflectance(material.measured);
    switch (material.kind) {
        case MaterialKind::kLambertian:
            break;
        case MaterialKind::kConductor:
            if (p.alpha > 0) p.lobe = make_white_lobe_albedo(p.alpha);
            break;
        case MaterialKind::kCoated:
            p.lobe = make_dielectric_lobe_albedo(p.alpha, kCoatIndex);
            break;
        case MaterialKind::kSheet:
            p.sheet = kept_sheet_lobe(material.spread);
            break;
        case MaterialKind::kGlass:
            p.index = refractive_index_curve(material.glass);
            p.absorption = absorption_curve(material.glass, material.tint);
            break;
        case MaterialKind::kThinGlass:
            p.index = refractive_index_curve(material.glass);
            p.absorption = material.glass == GlassType::kSodaLime
                               ? window_absorption_curve(material.tint)
                               : absorption_curve(material.glass, material.tint);
            break;
    }
    return p;
}

bool is_glass(MaterialKind kind) {
    return kind == MaterialKind::kGlass || kind == MaterialKind::kThinGlass;
}

}  // namespace

SceneMaterials::SceneMaterials(const Scene& scene) : textures_(&scene.textures) {
    materials_.reserve(scene.materials.size());
    size_t media = 0;
    for (const Material& material : scene.materials) {
        materials_.push_back(prepare(material));
        medium_numbers_.push_back(material.kind == MaterialKind::kGlass ? ++media : 0);
    }
}

MediumBoundary::MediumBoundary(const Spectrum& index_outside, const Spectrum& index_inside) {
    for (int j = 0; j < kSpectrumSize; ++j) eta[j] = index_inside[j] / index_outside[j];
    constexpr float kRounding = 1e-6F;  // ten times the rounding of an index
    dispersive = eta.max() - eta.min() > kRounding;
}

PassMaterials::PassMaterials(const SceneMaterials& scene, const Wavelengths& wavelengths)
    : scene_(&scene), basis_(sample_rgb_basis(wavelengths)) {
    spectra_.reserve(scene.all().size());
    std::vector<Spectrum> indices{Spectrum(1.0F)};  // by medium
    for (const PreparedMaterial& p : scene.all()) {
        Spectra s;
        s.reflectance = is_measured(p.material) ? p.measured.at(wavelengths)
                                                : basis_.lift(p.material.reflectance);
        if (is_glass(p.material.kind)) {
            s.index = p.index.at(wavelengths);
            s.absorption = p.absorption.at(wavelengths);
        }
        if (p.material.kind == MaterialKind::kGlass) indices.push_back(s.index);
        spectra_.push_back(s);
    }
    media_ = indices.size();
    for (const Spectrum& outside : indices) {
        for (const Spectrum& inside : indices) boundaries_.emplace_back(outside, inside);
    }
}

}  // namespace dapple
