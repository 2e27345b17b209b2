#include "scene/build_material.h"

#include <algorithm>

#include "base/units.h"
#include "scene/checks.h"
#include "scene/defaults.h"

namespace dapple {

namespace {

const std::vector<std::pair<std::string, GlassType>> kGlasses{
    {"soda-lime", GlassType::kSodaLime},
    {"borosilicate", GlassType::kBorosilicate},
    {"lead-crystal", GlassType::kLeadCrystal},
    {"silica", GlassType::kSilica},
    {"acrylic", GlassType::kAcrylic},
    {"water", GlassType::kWater},
    {"oil", GlassType::kOil},
    {"air", GlassType::kAir}};

const std::vector<std::pair<std::string, Tint>> kTints{{"clear", Tint::kClear},
                                                       {"green", Tint::kGreen},
                                                       {"amber", Tint::kAmber},
                                                       {"cobalt", Tint::kCobalt}};

float max_channel(const Rgb& colour) {
    return std::max({colour.x, colour.y, colour.z});
}

bool has_sheet(const SheetDescription& sheet) {
    return sheet.transmission.written || sheet.spread_deg.written || sheet.direct.written;
}

// A surface must be one of paint, metal, cloth and glass. Returns false, with a problem, if its
// keys name two.
bool check_one_kind(const SurfaceDescription& surface, Problems& problems) {
    const bool metal = surface.metal.given && surface.metal.value;
    const int kinds = static_cast<int>(metal) + static_cast<int>(surface.coat.written) +
                      static_cast<int>(has_sheet(surface.sheet)) +
                      static_cast<int>(surface.glass.written);
    if (kinds > 1) {
        problems.add(surface.place,
                     surface.label,
                     "is of more than one kind; give only one of metal, coat, transmission (with "
                     "spread_deg and direct) and glass");
    }
    if (!surface.glass.written) {
        const auto belongs_to_glass = [&](const auto& field) {
            if (field.written)
                problems.add(field.place,
                             field.key,
                             "is only for surfaces of glass; give glass too, or leave it out");
        };
        belongs_to_glass(surface.tint);
        belongs_to_glass(surface.thin);
        belongs_to_glass(surface.priority);
    }
    if (has_sheet(surface.sheet) && surface.roughness.written) {
        problems.add(surface.roughness.place,
                     surface.roughness.key,
                     "is not used by a thin sheet; give spread_deg");
    }
    return kinds <= 1;
}

void apply_paint(const SurfaceDescription& surface, Material& material, Problems& problems) {
    if (surface.reflectance.given) {
        material.reflectance =
            checked_colour(surface.reflectance, material.reflectance, kMaxReflectance, problems);
        material.reflectance_texture = -1;
        material.vertex_colours = false;
    }
    const bool metal = surface.metal.given && surface.metal.value;
    const double fallback = metal ? kMetalRoughness : kCoatRoughness;
    const double roughness = checked_range(surface.roughness, fallback, 0, 1, problems);
    if (metal) {
        material.kind = MaterialKind::kConductor;
    } else if (surface.coat.written || surface.roughness.written) {
        // Roughness alone means glossy paint: a coat all over.
        material.kind = MaterialKind::kCoated;
        material.coat = static_cast<float>(checked_range(surface.coat, 1, 0, 1, problems));
    } else {
        return;
    }
    material.roughness = static_cast<float>(roughness);
}

}  // namespace

MaterialId add_material(Scene& scene, Material material) {
    scene.materials.push_back(std::move(material));
    return static_cast<MaterialId>(scene.materials.size()) - 1;
}

Material build_model_material(const ModelMaterial& written,
                              TextureShelf& textures,
                              ModelReport& report,
                              bool& is_clamped) {
    Material material;
    material.name = written.name;
    material.vertex_colours = written.vertex_colours;
    const auto texture = [&](const ModelPicture& picture, const TextureUse& use, const char* then) {
        std::string trouble;
        const int index = textures.index(use, trouble);
        if (index < 0) {
            report.note(picture.place, picture.key, trouble + then, {trouble, "materials"});
        }
        return index;
    };
    Rgb colour(written.diffuse[0], written.diffuse[1], written.diffuse[2]);
    if (const ModelPicture& map = written.diffuse_map; !map.empty()) {
        material.reflectance_texture =
            texture(map, {{map.path, map.bytes, false}, true, -1}, written.without_map());
        if (material.reflectance_texture < 0 && !written.has_own_colour()) colour = Rgb(0.5F);
    }
    if (const ModelPicture& map = written.opacity_map; !map.empty()) {
        const bool alpha = written.opacity_is_alpha;
        material.opacity_texture =
            texture(map,
                    {{map.path, map.bytes, alpha}, false, written.opacity_cutoff},
                    "; the surface has no holes");
    }
    material.reflectance = glm::clamp(colour, Rgb(0), Rgb(static_cast<float>(kMaxReflectance)));
    const bool plain = material.reflectance_texture < 0 && !material.vertex_colours;
    is_clamped = plain && material.reflectance != colour;
    material.opacity = std::clamp(written.opacity, 0.0F, 1.0F);
    return material;
}

void build_sheet(const SheetDescription& sheet,
                 const Field<Triple>& reflectance,
                 double default_transmission,
                 const std::function<Rgb(double transmission)>& colour,
                 Material& material,
                 Problems& problems) {
    const double transmission =
        checked_range(sheet.transmission, default_transmission, 0, 1, problems);
    material.kind = MaterialKind::kSheet;
    material.transmission = static_cast<float>(transmission);
    material.reflectance = checked_colour(reflectance, colour(transmission), 1, problems);
    const double total = transmission + max_channel(material.reflectance);
    if (total > 1 + 1e-6) {  // as 0.55 + 0.45 in floats is above 1
        const bool written = reflectance.written;
        problems.add(written ? reflectance.place : sheet.transmission.place,
                     written ? reflectance.key : sheet.transmission.key,
                     "transmission and reflectance together are " + number_text(total) +
                         "; must be at most 1");
    }
    const double spread = checked_range(sheet.spread_deg, kSheetSpread, 0, 90, problems);
    material.spread = static_cast<float>(radians_from_degrees(spread));
    const double direct = checked_range(sheet.direct, 0, 0, 1, problems);
    if (direct > transmission) {
        add_problem(sheet.direct,
                    "a part of transmission, from 0 to " + number_text(transmission),
                    problems);
    }
    material.direct = static_cast<float>(std::min(direct, transmission));
}

void build_glass_material(const Field<std::string>& glass,
                          const Field<std::string>& tint,
                          const Field<double>& roughness,
                          const Field<int64_t>& priority,
                          Material& material,
                          Problems& problems) {
    material.kind = MaterialKind::kGlass;
    material.glass = checked_word(glass, kGlasses, material.glass, problems);
    material.tint = checked_word(tint, kTints, material.tint, problems);
    material.roughness = static_cast<float>(checked_range(roughness, 0, 0, 1, problems));
    material.priority =
        checked_whole(priority, default_priority(material.glass), 0, 1000, problems);
    material.opacity = 1;  // models often have it for glass
    material.opacity_texture = -1;
}

void apply_surface(const SurfaceDescription& surface, Material& material, Problems& problems) {
    if (!check_one_kind(surface, problems)) return;
    if (surface.glass.written) {
        build_glass_material(
            surface.glass, surface.tint, surface.roughness, surface.priority, material, problems);
        if (surface.thin.given && surface.thin.value) material.kind = MaterialKind::kThinGlass;
    } else if (has_sheet(surface.sheet)) {
        const Rgb own = material.reflectance;
        build_sheet(
            surface.sheet,
            surface.reflectance,
            0,
            [&](double transmission) { return own * static_cast<float>(1 - transmission); },
            material,
            problems);
        if (surface.reflectance.given) {
            material.reflectance_texture = -1;
            material.vertex_colours = false;
        }
    } else {
        apply_paint(surface, material, problems);
    }
}

}  // namespace dapple
