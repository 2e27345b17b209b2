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

int TextureShelf::index(const std::string& path,
                        bool srgb,
                        const Place& place,
                        const std::string& key) {
    for (const Entry& entry : entries_) {
        if (entry.path == path && entry.srgb == srgb) return entry.index;
    }
    int index = -1;
    try {
        Texture texture = read_image_(path);
        texture.srgb = srgb;
        scene_.textures.push_back(std::move(texture));
        index = static_cast<int>(scene_.textures.size()) - 1;
    } catch (const FileError& error) {
        problems_.add(place, key, error.what());
    }
    entries_.push_back({path, srgb, index});
    return index;
}

Material build_mtl_material(const MtlDescription& mtl, TextureShelf& textures, bool& is_clamped) {
    Material material;
    material.name = mtl.name;
    const Rgb written(mtl.diffuse[0], mtl.diffuse[1], mtl.diffuse[2]);
    const bool textured = !mtl.diffuse_map.empty();
    // Many exporters write a black Kd beside a texture and mean the texture alone.
    const Rgb meant = textured && max_channel(written) <= 0 ? Rgb(1) : written;
    material.reflectance = glm::clamp(meant, Rgb(0), Rgb(static_cast<float>(kMaxReflectance)));
    is_clamped = !textured && material.reflectance != written;
    material.opacity = std::clamp(mtl.opacity, 0.0F, 1.0F);
    if (textured) {
        material.reflectance_texture =
            textures.index(mtl.diffuse_map, true, mtl.diffuse_map_place, "map_Kd");
    }
    if (!mtl.opacity_map.empty()) {
        material.opacity_texture =
            textures.index(mtl.opacity_map, false, mtl.opacity_map_place, "map_d");
    }
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
        if (surface.reflectance.given) material.reflectance_texture = -1;
    } else {
        apply_paint(surface, material, problems);
    }
}

}  // namespace dapple
