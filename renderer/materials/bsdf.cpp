#include "materials/bsdf.h"

#include <type_traits>

#include "materials/texture_lookup.h"

namespace dapple {

namespace {

// Light that passes straight through the material, apart from holes: its share, and the probability
// of choosing it.
struct Straight {
    Spectrum share;
    float probability = 0;
};

template <typename Kind>
Straight straight_on(const Kind&, const Direction&) {
    return {Spectrum(0.0F), 0.0F};
}
Straight straight_on(const Sheet& m, const Direction&) {
    const float all = m.direct + m.forward + m.reflectance.mean();
    return {Spectrum(m.direct), all > 0.0F ? m.direct / all : 0.0F};
}
Straight straight_on(const ThinGlass& m, const Direction& wo) {
    const PaneShares shares = pane_shares(m, std::abs(wo.z));
    const float passed = shares.transmitted.mean();
    return {shares.transmitted, passed / (passed + shares.reflected.mean())};
}

template <typename Kind>
constexpr bool kPasses = std::is_same_v<Kind, Sheet> || std::is_same_v<Kind, ThinGlass>;

template <typename Kind>
float pass_probability(const Kind& kind, float opacity, const Direction& wo) {
    if constexpr (kPasses<Kind>) {
        return (1.0F - opacity) + opacity * straight_on(kind, wo).probability;
    }
    return 1.0F - opacity;
}

// The colour of the surface itself.
Spectrum own_colour(const Lambertian& m) {
    return m.reflectance;
}
Spectrum own_colour(const Mirror& m) {
    return m.reflectance;
}
Spectrum own_colour(const Conductor& m) {
    return m.reflectance;
}
Spectrum own_colour(const Coated& m) {
    return m.colour;
}
Spectrum own_colour(const Sheet& m) {
    return m.reflectance + Spectrum(m.forward + m.direct);
}
template <typename Glass>
Spectrum own_colour(const Glass&) {
    return Spectrum(1.0F);
}

Spectrum colour_at(const PassMaterials& materials, MaterialId id, const ColourSpot& spot) {
    const Material& m = materials.prepared(id).material;
    if (m.reflectance_texture < 0 && !m.vertex_colours) return materials.reflectance(id);
    Rgb colour = m.reflectance;
    if (m.vertex_colours) colour *= spot.vertex_colour;
    if (m.reflectance_texture >= 0) {
        colour *= texture_colour(materials.texture(m.reflectance_texture), spot.uv);
    }
    return materials.basis().lift(colour);
}

float opacity_at(const PassMaterials& materials, const Material& m, const Vec2& uv) {
    if (m.opacity_texture < 0) return m.opacity;
    return m.opacity * texture_value(materials.texture(m.opacity_texture), uv);
}

// Built in place, because copying an object that was just written in parts is slow.
void make_glass(const PreparedMaterial& p, const MediumSides& sides, int hero, Bsdf& bsdf) {
    const Spectrum& eta = sides.boundary->eta;
    const bool dispersive = sides.boundary->dispersive;
    // With nearly equal indices ground glass bends no light, and its half vector loses precision.
    constexpr float kNearlyEqual = 1e-3F;
    const bool vanishes = std::abs(eta[hero] - 1.0F) < kNearlyEqual;
    if (p.alpha == 0 || vanishes) {
        bsdf.kind.emplace<SmoothGlass>(eta, hero, dispersive, sides.monochromatic);
    } else {
        bsdf.kind.emplace<RoughGlass>(eta, p.alpha, hero, dispersive, sides.monochromatic);
    }
}

Sheet make_sheet_of(const PreparedMaterial& p, const Spectrum& colour) {
    const Material& m = p.material;
    const bool narrow = m.spread < kNarrowestSpread;
    const float direct = narrow ? m.transmission : m.direct;
    return make_sheet(colour, p.sheet, std::max(0.0F, m.transmission - direct), direct);
}

void make_whole(const PassMaterials& materials,
                MaterialId id,
                const ColourSpot& spot,
                const MediumSides& sides,
                int hero,
                Bsdf& bsdf) {
    const PreparedMaterial& p = materials.prepared(id);
    const Material& m = p.material;
    if (m.kind == MaterialKind::kGlass) return make_glass(p, sides, hero, bsdf);
    if (m.kind == MaterialKind::kThinGlass) {
        bsdf.kind.emplace<ThinGlass>(materials.index(id),
                                     materials.absorption(id) * kPaneThickness);
        return;
    }
    const Spectrum colour = colour_at(materials, id, spot);
    if (m.kind == MaterialKind::kConductor && p.alpha == 0) {
        bsdf.kind.emplace<Mirror>(colour);
    } else if (m.kind == MaterialKind::kConductor) {
        bsdf.kind = make_conductor(colour, p.lobe, p.alpha);
    } else if (m.kind == MaterialKind::kCoated) {
        bsdf.kind = make_coated(colour, p.lobe, p.alpha, m.coat);
    } else if (m.kind == MaterialKind::kSheet) {
        bsdf.kind = make_sheet_of(p, colour);
    } else {
        bsdf.kind.emplace<Lambertian>(colour);
    }
}

}  // namespace

void make_bsdf(const PassMaterials& materials,
               MaterialId material,
               const ColourSpot& spot,
               const MediumSides& sides,
               int hero,
               Bsdf& bsdf) {
    make_whole(materials, material, spot, sides, hero, bsdf);
    const Material& m = materials.prepared(material).material;
    // The boundary of a solid has no holes, or light would enter without a change of medium.
    bsdf.opacity = m.kind == MaterialKind::kGlass ? 1.0F : opacity_at(materials, m, spot.uv);
}

Spectrum eval(const Bsdf& bsdf, const Direction& wo, const Direction& wi, Carrying carrying) {
    return std::visit([&](const auto& kind) { return eval(kind, wo, wi, carrying) * bsdf.opacity; },
                      bsdf.kind);
}

float pdf(const Bsdf& bsdf, const Direction& wo, const Direction& wi) {
    return std::visit(
        [&](const auto& kind) {
            return pdf(kind, wo, wi) * (1.0F - pass_probability(kind, bsdf.opacity, wo));
        },
        bsdf.kind);
}

bool sample(
    const Bsdf& bsdf, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out) {
    return std::visit(
        [&](const auto& kind) {
            const float stays = 1.0F - pass_probability(kind, bsdf.opacity, wo);
            if (!(stays > 0.0F) || !sample(kind, wo, u, carrying, out)) return false;
            if constexpr (kPasses<std::decay_t<decltype(kind)>>) {
                out.weight *= bsdf.opacity / stays;
            }  // for other kinds, stays equals opacity
            out.pdf *= stays;
            out.pdf_reverse *= 1.0F - pass_probability(kind, bsdf.opacity, out.wi);
            return true;
        },
        bsdf.kind);
}

Spectrum straight_through(const Bsdf& bsdf, const Direction& wo) {
    return std::visit(
        [&](const auto& kind) {
            return straight_on(kind, wo).share * bsdf.opacity + Spectrum(1.0F - bsdf.opacity);
        },
        bsdf.kind);
}

float straight_through_probability(const Bsdf& bsdf, const Direction& wo) {
    return std::visit([&](const auto& kind) { return pass_probability(kind, bsdf.opacity, wo); },
                      bsdf.kind);
}

bool is_delta(const Bsdf& bsdf) {
    return std::holds_alternative<SmoothGlass>(bsdf.kind) ||
           std::holds_alternative<Mirror>(bsdf.kind) ||
           std::holds_alternative<ThinGlass>(bsdf.kind);
}

bool focuses(const Bsdf& bsdf) {
    return is_delta(bsdf) || std::holds_alternative<RoughGlass>(bsdf.kind);
}

float narrowest_lobe(const Bsdf& bsdf) {
    if (const auto* coated = std::get_if<Coated>(&bsdf.kind)) return coated->alpha;
    if (const auto* metal = std::get_if<Conductor>(&bsdf.kind)) return metal->alpha;
    if (const auto* glass = std::get_if<RoughGlass>(&bsdf.kind)) return glass->alpha;
    return 1;
}

bool is_shiny(const Bsdf& bsdf) {
    constexpr float kWidestAlpha = 0.3F;  // half of the lobe within some 25 degrees
    return is_delta(bsdf) || narrowest_lobe(bsdf) <= kWidestAlpha;
}

float gloss_share(const Bsdf& bsdf, float cos_o) {
    if (const auto* coated = std::get_if<Coated>(&bsdf.kind)) {
        return coat_share(*coated, coat_albedo(*coated, std::abs(cos_o)));
    }
    if (const auto* glass = std::get_if<SmoothGlass>(&bsdf.kind)) {
        return fresnel_dielectric(std::abs(cos_o), eta_from(glass->eta, glass->hero, cos_o));
    }
    return 0;
}

Spectrum albedo(const Bsdf& bsdf) {
    return std::visit([&](const auto& kind) { return own_colour(kind); }, bsdf.kind);
}

}  // namespace dapple
