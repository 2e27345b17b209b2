#include "glare/smooth_way.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "lenses/lens_wavelengths.h"
#include "transport/walk.h"

namespace dapple {

namespace {

constexpr int kMostPieces = 24;
constexpr int kMiddleBand = kSpectrumSize / 2;
constexpr float kWidestGloss = 0.1F;  // α; the image of a lamp is some 20° wide
constexpr float kLeastPassed = 1e-4F;

Wavelengths lens_bands() {
    Wavelengths w;
    for (int j = 0; j < kSpectrumSize; ++j) {
        w.nm[j] = static_cast<float>(kLensWavelengths[static_cast<size_t>(j)]);
        w.pdf[j] = 1;
    }
    return w;
}

bool is_smooth(const Material& m) {
    const bool is_glass = m.kind == MaterialKind::kGlass && m.roughness == 0;
    const bool may_be_gloss = m.kind == MaterialKind::kConductor || m.kind == MaterialKind::kCoated;
    const bool is_gloss = may_be_gloss && square(m.roughness) <= kWidestGloss;
    return is_glass || is_gloss || m.kind == MaterialKind::kThinGlass;
}

// The share of the light that a coat or a metal reflects like a mirror. Nothing for other surfaces.
std::optional<Spectrum> gloss_reflectance(const Bsdf& bsdf, float cosine) {
    if (const Coated* coated = std::get_if<Coated>(&bsdf.kind)) {
        return Spectrum(coated->coat * fresnel_dielectric(cosine, kCoatIndex) * bsdf.opacity);
    }
    if (const Conductor* metal = std::get_if<Conductor>(&bsdf.kind)) {
        return fresnel_conductor(cosine, metal->reflectance) * bsdf.opacity;
    }
    return std::nullopt;
}

// Where smooth glass sends the ray, and the share that goes there. False if nothing does.
bool refract(const SmoothGlass& glass,
             const Vertex& vertex,
             bool reflects,
             WorldSample& event,
             Spectrum& share) {
    constexpr float kRefract = 0.99999F;
    const float choice = reflects ? 0.0F : kRefract;
    const Normal& n = vertex.at.shading;
    if (!sample_around(glass, n, vertex.wo_world, choice, Carrying::kFlux, event)) return false;
    const float wo_z = glm::dot(n, vertex.wo_world);
    const Spectrum reflected = fresnel_dielectric(std::abs(wo_z), eta_from(glass.eta, wo_z));
    share = event.local.transmitted ? Spectrum(1.0F) - reflected : reflected;
    return true;
}

}  // namespace

SmoothWays::SmoothWays(const Setup& setup)
    : setup_(setup),
      materials_(setup.materials, lens_bands()),
      stage_(setup.stage(materials_, no_light_walks(setup), 0, 0)) {
    any_smooth_ = std::any_of(setup.scene.materials.begin(),
                              setup.scene.materials.end(),
                              [](const Material& m) { return is_smooth(m); });
}

// Continues the ray behind a smooth surface. False if the way ends there.
bool SmoothWays::go_on(const Vertex& vertex, FirstSmooth first, Walk& walk, WayPart& part) const {
    const bool reflects = first == FirstSmooth::kReflects && part.way == SeenWay::kDirect;
    Direction direction = walk.ray.direction;
    if (const SmoothGlass* glass = vertex.smooth_glass()) {
        WorldSample event;
        Spectrum share;
        if (!refract(*glass, vertex, reflects, event, share)) return false;
        part.passed *= share;
        direction = event.wi;
        if (event.local.transmitted) {
            const bool entering = glm::dot(vertex.at.geometric, direction) < 0.0F;
            cross_boundary(stage_, walk.media, vertex.at.material, entering);
        }
        if (part.way != SeenWay::kInMirror) {
            part.way = reflects ? SeenWay::kInMirror : SeenWay::kThroughGlass;
        }
    } else if (const ThinGlass* pane = std::get_if<ThinGlass>(&vertex.bsdf.kind)) {
        const PaneShares shares = pane_shares(*pane, std::abs(vertex.wo().z));
        part.passed *= reflects ? shares.reflected : shares.transmitted;
        if (reflects) {
            direction = glm::reflect(direction, vertex.at.shading);
            part.way = SeenWay::kInMirror;
        }
    } else if (std::holds_alternative<Mirror>(vertex.bsdf.kind)) {
        BsdfSample event;
        if (!sample(vertex.bsdf, vertex.wo(), Vec3(0.5F), Carrying::kFlux, event)) return false;
        part.passed *= event.weight;
        direction = vertex.frame().to_world(event.wi);
        part.way = SeenWay::kInMirror;
    } else if (const auto share = gloss_reflectance(vertex.bsdf, std::abs(vertex.wo().z))) {
        part.gloss = narrowest_lobe(vertex.bsdf);
        if (part.gloss > kWidestGloss) return false;
        part.passed *= *share;
        direction = glm::reflect(direction, vertex.at.shading);
        part.way = SeenWay::kInMirror;
    } else {
        return false;
    }
    const bool reflected =
        glm::dot(vertex.wo_world, vertex.at.geometric) * glm::dot(direction, vertex.at.geometric) >
        0;
    if (reflected && part.mirror == kNoMaterial) part.mirror = vertex.at.material;
    walk.ray = Ray{offset_origin(vertex.at, direction), direction, 0.0F, kInfinity};
    walk.edge_length = 0;
    return part.passed.max() > kLeastPassed;
}

void SmoothWays::follow(const Direction& direction,
                        FirstSmooth first,
                        std::vector<WayPart>& parts,
                        Vertex* gloss) const {
    parts.clear();
    Walk walk;
    walk.ray = Ray{setup_.lens.position(), direction, 0.0F, kInfinity};
    walk.media = stage_.start.lens;
    walk.light.hero = kMiddleBand;
    WayPart part;
    part.from = walk.ray.origin;
    part.direction = direction;
    Vertex vertex;
    for (int k = 0; k < kMostPieces; ++k) {
        const bool made = find_next_vertex(stage_, walk, vertex);
        part.length = walk.edge_length;
        parts.push_back(part);
        parts.back().passed *= walk.light.throughput;  // what media absorb
        if (!made || vertex.is_lamp() || part.gloss > 0) return;
        part.before += walk.edge_length;
        if (!go_on(vertex, first, walk, part)) return;
        if (gloss && part.gloss > 0) *gloss = vertex;
        part.from = walk.ray.origin;
        part.direction = walk.ray.direction;
        part.surfaces = mix_bits(part.surfaces, static_cast<uint64_t>(vertex.at.material) + 2);
    }
}

Spectrum SmoothWays::passed_straight(const Point& to, const Point& lamp) const {
    const float distance = glm::length(lamp - to);
    const Direction direction = (lamp - to) / distance;
    const auto& haze = setup_.haze;
    Spectrum passed(haze ? haze->transmittance(to, direction, distance) : 1.0F);
    // Ends before the lamp by more than the rounding error of the coordinates.
    const float shorter = std::max(1e-4F * distance, 0x1p-18F * glm::length(lamp));
    Ray ray{to, direction, 0.0F, distance - shorter};
    if (setup_.world.blocked(ray)) return Spectrum(0.0F);
    for (int k = 0; k < kMostPassed; ++k) {
        Hit hit;
        ray.t_max = glm::dot(lamp - ray.origin, direction) - shorter;
        if (ray.t_max <= 0.0F || !setup_.world.closest_see_through(ray, hit)) return passed;
        const SurfacePoint at = setup_.world.surface_at(ray, hit);
        Vertex through;
        if (!see_vertex(stage_, direction, at, kMiddleBand, through)) return Spectrum(0.0F);
        passed *= straight_through(through.bsdf, through.wo());
        ray.origin = offset_origin(at, direction);
    }
    return Spectrum(0.0F);
}

}  // namespace dapple
