// How a surface of any kind scatters light at one point. Frame and conventions as in scatter.h.
//
// Light that passes unscattered and unbent (holes of cut-out textures, the direct part of cloth,
// window panes) makes no vertex of a walk. With probability q = straight_through_probability(wo)
// the walk goes on unchanged, with weight straight_through / q. Otherwise it calls sample().
// Connections between points multiply by straight_through at each surface they cross. Therefore
// pdf(), and pdf and pdf_reverse of a sample, contain the factor 1 - q (of wo; of wi for the
// reverse). eval() is the full value. A sample's weight is f |cosθi| / pdf (E48).
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
    float opacity = 1;  // share of the surface that is not a hole
};

inline const MediumBoundary kSameMedium{};

// The media on both sides of a glass surface, and the state of the walk. Other kinds ignore it.
struct MediumSides {
    const MediumBoundary* boundary = &kSameMedium;
    bool monochromatic = false;  // the walk has met a dispersive interface before
};

// Thickness of the pane that thin glass represents: common window glass.
inline constexpr float kPaneThickness = 0.004F;  // m

// Where on a surface its colour is looked up.
struct ColourSpot {
    Vec2 uv{0};
    Rgb vertex_colour{1};  // linear Rec.709, for materials that have it
};

// `hero` is the index of the walk's own wavelength, 0 … 7.
void make_bsdf(const PassMaterials& materials,
               MaterialId material,
               const ColourSpot& spot,
               const MediumSides& sides,
               int hero,
               Bsdf& bsdf);

Spectrum eval(const Bsdf& bsdf, const Direction& wo, const Direction& wi, Carrying carrying);
float pdf(const Bsdf& bsdf, const Direction& wo, const Direction& wi);
bool sample(
    const Bsdf& bsdf, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out);

Spectrum straight_through(const Bsdf& bsdf, const Direction& wo);
float straight_through_probability(const Bsdf& bsdf, const Direction& wo);

// Whether light leaves only in mirror and refracted directions: no connection starts here.
bool is_delta(const Bsdf& bsdf);

// Whether much of the light leaves near the mirror or the refracted direction: a smooth surface, or
// a coat, metal or glass with a narrow lobe.
bool is_shiny(const Bsdf& bsdf);

// Whether the surface gathers light into spots: smooth, or rough glass.
bool focuses(const Bsdf& bsdf);

// The width α of the narrowest glossy lobe, about the angle within which the lobe is bright, rad;
// 1 without a glossy lobe.
float narrowest_lobe(const Bsdf& bsdf);

// sample() draws either in a gloss or in another way: the mirror direction or the coat's lobe where
// u.z is below this share, else the refracted direction or the base. 0 for other kinds.
float gloss_share(const Bsdf& bsdf, float cos_o);

// The surface's own colour, for the albedo picture; 1 for glass.
Spectrum albedo(const Bsdf& bsdf);

}  // namespace dapple
