// The family of materials that the claims about scattering loop over: every kind, with several
// roughnesses, colours and surroundings. A new material is added here to be tested.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/random.h"
#include "materials/bsdf.h"
#include "spectrum/wavelengths.h"

namespace dapple {

struct TestMaterial {
    std::string name;
    Material material;
    bool lossless = false;  // the model must return all light
    bool complete = false;  // every draw returns a direction
    bool in_water = false;  // z > 0 is water, as on the inside of a full jar
};

inline std::vector<TestMaterial> all_materials() {
    std::vector<TestMaterial> all;
    const auto add = [&all](const std::string& name, MaterialKind kind) -> TestMaterial& {
        TestMaterial test;
        test.name = name;
        test.material.name = name;
        test.material.kind = kind;
        all.push_back(test);
        return all.back();
    };
    const auto named = [](const std::string& name, float number) {
        return name + " " + std::to_string(number).substr(0, 4);
    };

    TestMaterial* t = &add("white wall", MaterialKind::kLambertian);
    t->material.reflectance = Rgb(1);
    t->lossless = t->complete = true;
    t = &add("red wall", MaterialKind::kLambertian);
    t->material.reflectance = Rgb(0.6F, 0.1F, 0.05F);
    t->complete = true;
    t = &add("cut-out leaf", MaterialKind::kLambertian);
    t->material.reflectance = Rgb(0.1F, 0.4F, 0.08F);
    t->material.opacity = 0.7F;
    t->complete = true;

    for (const float roughness : {0.0F, 0.1F, 0.3F, 0.6F, 1.0F}) {
        t = &add(named("white metal", roughness), MaterialKind::kConductor);
        t->material.reflectance = Rgb(1);
        t->material.roughness = roughness;
        t->lossless = true;
        t->complete = roughness == 0;
        t = &add(named("white varnished", roughness), MaterialKind::kCoated);
        t->material.reflectance = Rgb(1);
        t->material.roughness = roughness;
        t->material.coat = 1;
        t->lossless = true;
        t->complete = roughness == 0;
        t = &add(named("glass", roughness), MaterialKind::kGlass);
        t->material.roughness = roughness;
        t->lossless = t->complete = roughness == 0;
    }
    t = &add("copper 0.40", MaterialKind::kConductor);
    t->material.reflectance = Rgb(0.95F, 0.64F, 0.54F);
    t->material.roughness = 0.4F;
    t = &add("half wet slate 0.25", MaterialKind::kCoated);
    t->material.reflectance = Rgb(0.05F);
    t->material.roughness = 0.25F;
    t->material.coat = 0.5F;

    t = &add("lead crystal in water", MaterialKind::kGlass);
    t->material.glass = GlassType::kLeadCrystal;
    t->lossless = t->complete = t->in_water = true;
    t = &add("ground silica in water 0.40", MaterialKind::kGlass);
    t->material.glass = GlassType::kSilica;
    t->material.roughness = 0.4F;
    t->in_water = true;
    t = &add("clear pane", MaterialKind::kThinGlass);
    t->material.glass = GlassType::kSilica;  // absorbs nothing
    t->lossless = t->complete = true;
    t = &add("amber pane", MaterialKind::kThinGlass);
    t->material.tint = Tint::kAmber;
    t->complete = true;

    for (const float degrees : {0.2F, 3.0F, 15.0F, 45.0F, 70.0F}) {
        t = &add(named("white cloth", degrees), MaterialKind::kSheet);
        t->material.reflectance = Rgb(0.35F);
        t->material.transmission = 0.65F;
        t->material.direct = 0.05F;
        t->material.spread = static_cast<float>(radians_from_degrees(degrees));
        t->lossless = t->complete = true;
    }
    t = &add("dark cloth", MaterialKind::kSheet);
    t->material.reflectance = Rgb(0.2F, 0.05F, 0.05F);
    t->material.transmission = 0.3F;
    t->material.spread = 0.6F;
    t->material.opacity = 0.8F;
    t->complete = true;
    return all;
}

// The family as walks use it, at one pass's wavelengths. Every member can have each of the eight
// heroes.
class MaterialFamily {
  public:
    MaterialFamily() : tests_(all_materials()), wavelengths_(make_pass_wavelengths(7, 3)) {
        for (const TestMaterial& test : tests_) scene_.materials.push_back(test.material);
        Material water;
        water.kind = MaterialKind::kGlass;
        water.glass = GlassType::kWater;
        scene_.materials.push_back(water);
        prepared_ = std::make_unique<SceneMaterials>(scene_);
        pass_ = std::make_unique<PassMaterials>(*prepared_, wavelengths_);
    }

    const std::vector<TestMaterial>& tests() const { return tests_; }

    Bsdf bsdf(size_t i, int hero) const {
        Bsdf bsdf;
        const auto id = static_cast<MaterialId>(i);
        const MediumSides sides{&pass_->boundary(outside(i), inside(i)), false};
        make_bsdf(*pass_, id, {}, sides, hero, bsdf);
        return bsdf;
    }

    // Index of the medium that contains a direction.
    float index_along(size_t i, const Direction& w, int wavelength) const {
        const MaterialId medium = w.z > 0 ? outside(i) : inside(i);
        return medium == kNoMaterial ? 1.0F : pass_->index(medium)[wavelength];
    }

  private:
    MaterialId inside(size_t i) const {
        const bool solid = tests_[i].material.kind == MaterialKind::kGlass;
        return solid ? static_cast<MaterialId>(i) : kNoMaterial;
    }
    MaterialId outside(size_t i) const {
        const bool in_water = inside(i) != kNoMaterial && tests_[i].in_water;
        return in_water ? static_cast<MaterialId>(tests_.size()) : kNoMaterial;
    }

    std::vector<TestMaterial> tests_;
    Wavelengths wavelengths_;
    Scene scene_;
    std::unique_ptr<SceneMaterials> prepared_;
    std::unique_ptr<PassMaterials> pass_;
};

inline const MaterialFamily& material_family() {
    static const MaterialFamily family;
    return family;
}

inline Direction direction_at(double degrees_from_z, double degrees_round_z) {
    const double theta = radians_from_degrees(degrees_from_z);
    const double phi = radians_from_degrees(degrees_round_z);
    return glm::normalize(Direction(static_cast<float>(std::sin(theta) * std::cos(phi)),
                                    static_cast<float>(std::sin(theta) * std::sin(phi)),
                                    static_cast<float>(std::cos(theta))));
}

// From steep to grazing, on both sides.
inline std::vector<Direction> test_directions() {
    return {direction_at(0, 0),
            direction_at(20, 35),
            direction_at(65, -130),
            direction_at(86, 80),
            direction_at(180 - 30, 10),
            direction_at(180 - 75, 200)};
}

inline Vec3 next_vec3(RandomStream& random) {
    const float x = random.next();
    const float y = random.next();
    return Vec3(x, y, random.next());
}

}  // namespace dapple
