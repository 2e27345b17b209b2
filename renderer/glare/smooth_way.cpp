#include "glare/smooth_way.h"

#include <algorithm>
#include <cmath>

#include "lenses/lens_wavelengths.h"
#include "transport/walk.h"

namespace dapple {

namespace {

constexpr int kMostParts = 24;
constexpr int kMiddleBand = kSpectrumSize / 2;

Wavelengths lens_bands() {
    Wavelengths w;
    for (int j = 0; j < kSpectrumSize; ++j) {
        w.nm[j] = static_cast<float>(kLensWavelengths[static_cast<size_t>(j)]);
        w.pdf[j] = 1;
    }
    return w;
}

bool is_smooth(const Material& m) {
    const bool is_mirror = m.kind == MaterialKind::kConductor && m.roughness == 0;
    const bool is_glass = m.kind == MaterialKind::kGlass && m.roughness == 0;
    return is_mirror || is_glass || m.kind == MaterialKind::kThinGlass;
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
    } else {
        return false;
    }
    walk.ray = Ray{offset_origin(vertex.at, direction), direction, 0.0F, kInfinity};
    walk.edge_length = 0;
    return part.passed.max() > 1e-4F;
}

void SmoothWays::follow(const Direction& direction,
                        FirstSmooth first,
                        std::vector<WayPart>& parts) const {
    parts.clear();
    Walk walk;
    walk.ray = Ray{setup_.lens.position(), direction, 0.0F, kInfinity};
    walk.media = stage_.start.lens;
    walk.light.hero = kMiddleBand;
    WayPart part;
    part.from = walk.ray.origin;
    part.direction = direction;
    Vertex vertex;
    for (int k = 0; k < kMostParts; ++k) {
        const bool made = find_next_vertex(stage_, walk, vertex);
        part.length = walk.edge_length;
        parts.push_back(part);
        parts.back().passed *= walk.light.throughput;  // what media absorb
        if (!made || vertex.is_lamp()) return;
        part.before += walk.edge_length;
        if (!go_on(vertex, first, walk, part)) return;
        part.from = walk.ray.origin;
        part.direction = walk.ray.direction;
        part.surfaces = mix_bits(part.surfaces, static_cast<uint64_t>(vertex.at.material) + 2);
    }
}

Spectrum SmoothWays::passed_straight(const Point& from_lens, const Point& lamp) const {
    const float distance = glm::length(lamp - from_lens);
    const Direction direction = (lamp - from_lens) / distance;
    const auto& haze = setup_.haze;
    Spectrum passed(haze ? haze->transmittance(from_lens, direction, distance) : 1.0F);
    // Ends before the lamp by more than the rounding error of the coordinates.
    const float shorter = std::max(1e-4F * distance, 0x1p-18F * glm::length(lamp));
    Ray ray{from_lens, direction, 0.0F, distance - shorter};
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
