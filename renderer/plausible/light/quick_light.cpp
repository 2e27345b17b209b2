#include "plausible/light/quick_light.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "math/sequences.h"
#include "plausible/bodies/crossings.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

constexpr int kRaysInAll = 64;
constexpr int kRaysOfEach = 2;   // at least
constexpr int kMostPassed = 64;  // surfaces on one ray
constexpr float kGlassPasses = 0.96F;
constexpr float kRipples = 0.1F;
constexpr float kTexture = 0.5F;   // a texture's mean, in place of looking it up
constexpr float kNearest = 0.25F;  // m, to which a small lamp counts as a point
constexpr float kOff = 1e-4F;      // m

// The luminous reflectance of measured skin and hair, in light of equal energy.
float grey_of(MeasuredReflectance which) {
    using Kind = MeasuredReflectance;
    static const std::map<Kind, float> greys = [] {
        const double all = integrate_xyz(equal_energy()).y;
        std::map<Kind, float> found;
        for (const Kind kind : {Kind::kLightSkin,
                                Kind::kMediumSkin,
                                Kind::kDarkSkin,
                                Kind::kDarkHair,
                                Kind::kFairHair}) {
            found[kind] = static_cast<float>(integrate_xyz(measured_reflectance(kind)).y / all);
        }
        return found;
    }();
    return greys.at(which);
}

float reflectance_of(const Material& m) {
    if (m.measured != MeasuredReflectance::kNone) return grey_of(m.measured);
    const Rgb& c = m.reflectance;
    const float grey = 0.2126F * c.x + 0.7152F * c.y + 0.0722F * c.z;
    return grey * (m.reflectance_texture >= 0 ? kTexture : 1.0F);
}

// The share of the light that goes straight on, as far as this estimate counts: none where a
// surface ends a ray.
float passes_straight(const Material& m) {
    if (m.kind == MaterialKind::kGlass || m.kind == MaterialKind::kThinGlass) return kGlassPasses;
    if (m.kind == MaterialKind::kSheet) return m.direct;
    const float opacity = m.opacity * (m.opacity_texture >= 0 ? kTexture : 1.0F);
    return 1 - opacity;
}

Normal facing(const Normal& normal, const Vec3& to) {
    return glm::dot(normal, to) < 0 ? -normal : normal;
}

// Of a matte surface or a sheet with `lux` of light on each side, cd/m².
template <class Lux>
double luminance_under(const Scene& scene,
                       const SurfacePoint& at,
                       const Direction& direction,
                       const Lux& lux) {
    if (at.material == kNoMaterial) return 0;
    const Material& m = scene.materials[static_cast<size_t>(at.material)];
    const Normal front = facing(at.geometric, -direction);
    double lit = static_cast<double>(reflectance_of(m)) * lux(LitPlace{at.position, front});
    if (m.kind == MaterialKind::kSheet) {
        lit += static_cast<double>(m.transmission) * lux(LitPlace{at.position, -front});
    }
    return lit / kPi;
}

}  // namespace

QuickLight::QuickLight(const StagedSet& set) : set_(set) {
    double all = 0;
    for (const Fixture& f : set.scene.fixtures) {
        emitters_.emplace_back(f);
        all += emitters_.back().lumens();
    }
    for (size_t i = 0; i < emitters_.size(); ++i) {
        if (!(emitters_[i].lumens() > 0)) continue;
        const double share = emitters_[i].lumens() / all;
        add_small_lamps(i, kRaysOfEach + static_cast<int>(share * kRaysInAll));
    }
}

void QuickLight::add_small_lamps(size_t fixture, int rays) {
    for (int i = 0; i < rays; ++i) {
        const auto u = sobol_owen_4d(static_cast<uint32_t>(i), static_cast<uint32_t>(fixture));
        const LampLight light = emitters_[fixture].sample_emission(u[0], u[1], u[2], u[3]);
        auto lumens = static_cast<float>(emitters_[fixture].lumens()) / static_cast<float>(rays);
        Ray ray{light.position + kOff * light.direction, light.direction, 0.0F, kInfinity};
        for (int k = 0; k < kMostPassed; ++k) {
            Hit hit;
            if (!set_.world.closest(ray, hit)) break;
            const SurfacePoint at = set_.world.surface_at(ray, hit);
            const bool is_own = at.lamp == static_cast<int>(fixture);
            if (at.material == kNoMaterial && !is_own) break;
            if (!is_own) {
                const Material& m = set_.scene.materials[static_cast<size_t>(at.material)];
                end_ray(at, ray.direction, lumens);
                lumens *= passes_straight(m);
            }
            if (lumens <= 0) break;
            ray.origin = offset_origin(at, ray.direction);
        }
    }
}

// (E177)
void QuickLight::end_ray(const SurfacePoint& at, const Direction& direction, float lumens) {
    const Material& m = set_.scene.materials[static_cast<size_t>(at.material)];
    if (m.kind == MaterialKind::kThinGlass) return;
    if (m.kind == MaterialKind::kGlass) {
        if (glm::dot(at.geometric, direction) > 0) return;
        const float candela = kRipples * lumens / (2 * kPiF);
        small_lamps_.push_back({at.position + kOff * direction, direction, 0, candela});
        return;
    }
    const Normal front = facing(at.geometric, -direction);
    const float scattered = reflectance_of(m) * (1 - passes_straight(m)) * lumens;
    if (scattered > 0) {
        small_lamps_.push_back({at.position + kOff * front, front, 1, scattered / kPiF});
    }
    if (m.kind != MaterialKind::kSheet) return;
    const float half = std::max(std::cos(m.spread), 0.05F);
    const float exponent = std::max(std::log(0.5F) / std::log(std::min(half, 0.999F)), 1.0F);
    const float through = (m.transmission - m.direct) * lumens;
    small_lamps_.push_back(
        {at.position - kOff * front, direction, exponent, through * (exponent + 1) / (2 * kPiF)});
}

float QuickLight::passes(const Point& from, const Point& to, int lamp) const {
    const float length = glm::length(to - from);
    Ray ray{from, (to - from) / length, 0.0F, length - 2 * kOff};
    float share = 1;
    for (int i = 0; i < kMostPassed && ray.t_max > 0; ++i) {
        Hit hit;
        if (!set_.world.closest(ray, hit)) return share;
        const SurfacePoint at = set_.world.surface_at(ray, hit);
        if (at.lamp >= 0) {
            if (at.lamp != lamp) return 0;
        } else if (at.material == kNoMaterial) {
            return 0;
        } else {
            share *= passes_straight(set_.scene.materials[static_cast<size_t>(at.material)]);
            if (share <= 0) return 0;
        }
        const Point next = offset_origin(at, ray.direction);
        ray.t_max -= glm::dot(next - ray.origin, ray.direction);
        ray.origin = next;
    }
    return share;
}

double QuickLight::direct_of(size_t fixture, const LitPlace& place) const {
    const Emitter& emitter = emitters_[fixture];
    if (!(emitter.lumens() > 0) || !emitter.may_reach(place.position)) return 0;
    LampLight light;
    if (!emitter.sample_towards(place.position, 0.5F, 0.5F, light)) return 0;
    const Vec3 way = light.position - place.position;
    const float distance2 = glm::dot(way, way);
    const float cosine = glm::dot(way, place.normal) / std::sqrt(distance2);
    if (cosine <= 0 || !(light.pdf_towards > 0)) return 0;
    const Point from = place.position + kOff * place.normal;
    const float share = passes(from, light.position, static_cast<int>(fixture));
    return static_cast<double>(share * light.luminance * light.cos_lamp * cosine) /
           static_cast<double>(distance2 * light.pdf_towards);
}

double QuickLight::of_small_lamp(const SmallLamp& lamp, const LitPlace& place) const {
    const Vec3 way = lamp.position - place.position;
    const float distance2 = glm::dot(way, way);
    const Direction direction = way / std::max(std::sqrt(distance2), kOff);
    const float cosine = glm::dot(direction, place.normal);
    const float cos_lamp = -glm::dot(direction, lamp.axis);
    if (cosine <= 0 || cos_lamp <= 0) return 0;
    const float candela = lamp.candela * std::pow(cos_lamp, lamp.exponent);
    const float lux = candela * cosine / std::max(distance2, square(kNearest));
    return static_cast<double>(lux *
                               passes(place.position + kOff * place.normal, lamp.position, -1));
}

double QuickLight::direct(const LitPlace& place) const {
    double lux = 0;
    for (size_t i = 0; i < emitters_.size(); ++i) lux += direct_of(i, place);
    return lux;
}

double QuickLight::all(const LitPlace& place) const {
    double lux = direct(place);
    for (const SmallLamp& lamp : small_lamps_) lux += of_small_lamp(lamp, place);
    return lux;
}

double QuickLight::luminance(const SurfacePoint& at, const Direction& direction) const {
    if (at.lamp >= 0) {
        const Emitter& emitter = emitters_[static_cast<size_t>(at.lamp)];
        return static_cast<double>(emitter.eval(at.position, -direction).luminance);
    }
    return luminance_under(set_.scene, at, direction, [&](const LitPlace& p) { return all(p); });
}

bool QuickLight::is_past_glass(size_t fixture, const Point& place) const {
    const Counts counts = [](const Thing& thing, const SurfacePoint&) {
        return thing.kind == ThingKind::kGlass;
    };
    const Vec3 way = emitters_[fixture].position() - place;
    const float length = glm::length(way);
    Thing thing;
    SurfacePoint at;
    const Ray ray{place, way / std::max(length, kOff), kOff, length - kOff};
    return first_counting(set_.world, ray, counts, thing, at);
}

double QuickLight::sure_luminance(const SurfacePoint& at, const Direction& direction) const {
    if (at.lamp >= 0) return 0;
    return luminance_under(set_.scene, at, direction, [&](const LitPlace& place) {
        double lux = 0;
        for (size_t i = 0; i < emitters_.size(); ++i) {
            const double of_it = direct_of(i, place);
            if (of_it > 0 && !is_past_glass(i, place.position)) lux += of_it;
        }
        return lux;
    });
}

}  // namespace dapple
