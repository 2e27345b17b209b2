// What a surface does to light at one point, of whatever kind; frame and rules as in scatter.h.
//
// Light that passes unscattered and unbent (holes of cut-out textures, the direct part of cloth,
// window panes) is no event on a walk. At a surface the walk first draws with probability
// q = straight_through_probability(wo) whether it goes on as it is, with weight
// straight_through / q; else it calls sample(). Connections between points multiply by
// straight_through at each surface they cross. So pdf(), pdf and pdf_reverse of a sample hold the
// factor 1 - q (of wo, and of wi for the reverse); eval() is the full value; a sample's weight is
// f |cosθi| / pdf (E38).
#pragma once

#include <variant>

#include "materials/coated.h"
#include "materials/conductor.h"
#include "materials/lambertian.h"
#include "materials/mirror.h"
#include "materials/rough_glass.h"
#include "materials/scatter.h"
#include "materials/scene_materials.h"
#include "materials/sheet.h"
#include "materials/smooth_glass.h"
#include "materials/thin_glass.h"

namespace dapple {

struct Bsdf {
    std::variant<Lambertian, Mirror, Conductor, Coated, SmoothGlass, RoughGlass, ThinGlass, Sheet>
        kind;
    float opacity = 1;  // part of the surface that is there
};

inline const MediumBoundary kSameMedium{};

// The media that meet at a surface of glass, and what is left of the walk. Other kinds ignore it.
struct MediumSides {
    const MediumBoundary* boundary = &kSameMedium;
    bool monochromatic = false;  // the walk has met a dispersive interface before
};

// The pane that thin glass stands for: common window glass.
inline constexpr float kPaneThickness = 0.004F;  // m

// `hero`: the walk's own wavelength, 0 … 7.
void make_bsdf(const PassMaterials& materials,
               MaterialId material,
               const Vec2& uv,
               const MediumSides& sides,
               int hero,
               Bsdf& bsdf);

Spectrum eval(const Bsdf& bsdf, const Direction& wo, const Direction& wi, Carrying carrying);
float pdf(const Bsdf& bsdf, const Direction& wo, const Direction& wi);
bool sample(
    const Bsdf& bsdf, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out);

Spectrum straight_through(const Bsdf& bsdf, const Direction& wo);
float straight_through_probability(const Bsdf& bsdf, const Direction& wo);

// Nothing but mirror and refracted directions: no connections from here.
bool is_delta(const Bsdf& bsdf);

// Whether much of what it sends on keeps near the mirror or the refracted direction: smooth, or a
// coat, metal or glass whose lobe is not wide.
bool is_shiny(const Bsdf& bsdf);

// The width α of its narrowest glossy lobe, about the angle within which it is bright; 1 for what
// has none.
float narrowest_lobe(const Bsdf& bsdf);

// The surface's own colour, for the albedo picture; 1 for glass.
Spectrum albedo(const Bsdf& bsdf);

}  // namespace dapple
