#include "transport/light_walk.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "transport/metered_walk.h"
#include "transport/partition.h"
#include "transport/photon_differential.h"
#include "transport/sensor_join.h"
#include "transport/soft_splat.h"

namespace dapple {

namespace {

// The walk's end point on the lamp and its first ray (E48).
bool start_walk(const Stage& stage,
                int fixture,
                const SobolOwen4d& starts,
                int index,
                Walk& walk,
                LampLight& light,
                float& scale) {
    const Emitter& emitter = stage.emitters[static_cast<size_t>(fixture)];
    const auto u = starts.point(static_cast<uint32_t>(index));
    light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
    // Rounding can put a direction on the lamp's very horizon, where none is drawn: density 0.
    if (!(light.luminance > 0.0F && light.pdf_direction > 0.0F)) return false;
    const auto count = static_cast<float>(stage.light_walks[static_cast<size_t>(fixture)]);
    const float density = count * light.pdf_area * light.pdf_direction;
    const float cos_lamp = emitter.is_point() ? 1.0F : glm::dot(light.normal, light.direction);
    scale = light.luminance * cos_lamp / density;  // lm
    walk.hero = static_cast<int>((static_cast<uint32_t>(index) + stage.pass) % kSpectrumSize);
    walk.weights.join = 1.0F / density;  // times the density of the lamp sample, once it is known
    walk.weights.reversed = emitter.is_point() ? 0.0F : cos_lamp / density;
    walk.last_position = light.position;
    const auto lamp_number = static_cast<size_t>(fixture);
    if (lamp_number < stage.start.lamps.size()) walk.media = stage.start.lamps[lamp_number];
    SurfacePoint lamp;
    lamp.position = light.position;
    lamp.geometric = light.normal;
    walk.ray = Ray{offset_origin(lamp, light.direction), light.direction, 0.0F, kInfinity};
    return true;
}

// At the first vertex: how often the lamp, or the cloth here, would have been drawn from there.
void weigh_first_edge(
    const Stage& stage, int fixture, const LampLight& light, const Vertex& vertex, Walk& walk) {
    const auto f = static_cast<size_t>(fixture);
    const float asked =
        stage.emitters[f].pdf_towards(vertex.at.position, light.position, light.normal);
    walk.weights.join *= asked;
    if (stage.sheets) walk.sheet_density = stage.sheets->density(f, vertex.at);
}

Footprint footprint_of(const Stage& stage,
                       const Vertex& vertex,
                       const PhotonDifferential& differential) {
    Footprint footprint;
    footprint.known = differential.is_known();
    footprint.most_px = widest_splat_px(stage, vertex.bsdf);
    for (size_t i = 0; i < 2 && footprint.known; ++i) {
        footprint.half_axes[i] =
            stage.lens.raster_change(vertex.at.position, differential.half_axis(i));
    }
    return footprint;
}

// Where in the frame the wavelengths land that dispersive glass has parted from the walk's hero.
class Dispersed {
  public:
    Dispersed(const Stage& stage,
              const Walk& walk,
              const Vertex& vertex,
              const PhotonDifferential& differential)
        : coordinate_(stage.wavelength_coordinate), hero_(walk.hero) {
        if (!walk.monochromatic || !differential.is_known()) return;
        per_unit_ = stage.lens.raster_change(vertex.at.position, differential.dispersion());
        // The same for every hero: else some wavelengths would be counted twice, others not at all.
        apart_ = coordinate_.span * glm::length(per_unit_);
        lands_whole_ = apart_ < stage.dispersion_limit;
    }

    // Near enough to each other for the walk to stand for all of them.
    bool lands_whole() const { return lands_whole_; }

    void add_splats(const Vec2& raster,
                    const Footprint& footprint,
                    const SurfacePoint& at,
                    int fixture,
                    const Spectrum& luminance,
                    LightSink& sink) const {
        const int splats = lands_whole_ ? splats_needed() : 1;
        if (splats == 1) {
            const SplatPart all{raster, luminance};
            sink.add_splat({&all, 1}, footprint, at, fixture);
            return;
        }
        // Neighbours in the spectrum together, where they land in the mean. Which ones are together
        // changes with the hero, or some would be moved the same way in every pass.
        const int in_one = kSpectrumSize / splats;
        const int begun = (hero_ - coordinate_.shortest + kSpectrumSize) % in_one;
        std::array<SplatPart, kSpectrumSize> parts;
        size_t count = 0;
        for (int first = -begun; first < kSpectrumSize; first += in_one) {
            const int from = std::max(first, 0);
            const int to = std::min(first + in_one, kSpectrumSize);
            Spectrum& some = parts[count].luminance;
            float coordinate = 0;
            for (int i = from; i < to; ++i) {
                const int j =
                    (coordinate_.shortest + i) % kSpectrumSize;  // a pass's begin anywhere
                some[j] = luminance[j];
                coordinate += coordinate_[j] / static_cast<float>(to - from);
            }
            parts[count++].raster = raster + per_unit_ * (coordinate - coordinate_[hero_]);
        }
        sink.add_splat({parts.data(), count}, footprint, at, fixture);
    }

  private:
    static constexpr float kMostOff = 0.3F;  // px

    // As few as leave wavelengths within some kMostOff of their places: of n neighbours, a seventh
    // of the whole way from each to the next, the outer ones are (n - 1)/2 steps off the middle.
    int splats_needed() const {
        int splats = 1;
        const float step = apart_ / (kSpectrumSize - 1);
        while (splats < kSpectrumSize &&
               0.5F * static_cast<float>(kSpectrumSize / splats - 1) * step > kMostOff) {
            splats *= 2;
        }
        return splats;
    }

    const WavelengthCoordinate& coordinate_;
    int hero_;
    Vec2 per_unit_{0};
    float apart_ = 0;
    bool lands_whole_ = false;
};

void join_to_lens(const Stage& stage,
                  int fixture,
                  Walk& walk,
                  const Vertex& vertex,
                  const PhotonDifferential& differential,
                  float scale,
                  RandomStream& random,
                  LightSink& sink) {
    Lens::Projection seen;
    const float lens_u = random.next();
    const float lens_v = random.next();
    if (!stage.lens.project(vertex.at.position, lens_u, lens_v, seen)) return;
    SensorView lens;
    lens.point = seen.lens_point;
    lens.to_sensor = seen.to_lens;
    lens.distance = seen.distance;
    lens.weights = walk.weights;
    lens.soft_weight = walk.only_smooth ? 1.0F : soft_splat_weight(stage, vertex.bsdf);
    lens.response = lens.pdf_direction = seen.pdf_direction;
    const Dispersed dispersed(stage, walk, vertex, differential);
    const Spectrum carried = walk.throughput;
    if (dispersed.lands_whole()) walk.throughput = walk.undispersed;
    Spectrum luminance;
    if (join_to_sensor(stage, walk, vertex, scale, lens, luminance)) {
        luminance *= through_port(stage);
        const Footprint footprint = footprint_of(stage, vertex, differential);
        dispersed.add_splats(seen.raster, footprint, vertex.at, fixture, luminance, sink);
    }
    walk.throughput = carried;
}

// The vertex as a photon.
void keep_photon(const Stage& stage,
                 int fixture,
                 const Walk& walk,
                 const Vertex& vertex,
                 const PhotonDifferential& differential,
                 float scale,
                 RandomStream& random,
                 PhotonList& photons) {
    if (!walk.had_smooth || !may_merge(stage, vertex) || vertex.shading_faces_away) return;
    const float share = stage.merge_cells ? stage.merge_cells->share(vertex.at.position) : 1.0F;
    if (share < 1.0F && random.next() >= share) return;
    Photon photon;
    const bool whole = parted_m(stage, walk, differential) < stage.photon_dispersion_limit_m;
    photon.flux = PackedSpectrum((whole ? walk.undispersed : walk.throughput) * (scale / share));
    photon.position = vertex.at.position;
    photon.direction = PackedNormal(vertex.wo_world);
    for (int i = 0; i < 3; ++i) {
        photon.normal[static_cast<size_t>(i)] =
            static_cast<int8_t>(std::lround(127 * vertex.at.geometric[i]));
    }
    photon.joinable = walk.per_join * walk.weights.join;
    photon.reversed = walk.weights.reversed;
    photon.shiny = is_shiny(vertex.bsdf) ? walk.weights.shiny : 0.0F;
    photon.material = vertex.at.material;
    photon.fixture = static_cast<int16_t>(fixture);
    photons.push_back(photon);
}

// The spot that a walk stands for where it begins; unknown where footprints are off.
PhotonDifferential differential_of(const Stage& stage, int fixture, const LampLight& light) {
    PhotonDifferential differential;
    if (!(stage.footprint_overlap > 0)) return differential;
    const auto count = static_cast<float>(stage.light_walks[static_cast<size_t>(fixture)]);
    differential.begin(light.direction, stage.footprint_overlap / (count * light.pdf_direction));
    return differential;
}

// Scatters the walk, or passes straight through. False when it ends.
bool leave_vertex(const Stage& stage,
                  Walk& walk,
                  const Vertex& vertex,
                  PhotonDifferential& differential,
                  RandomStream& random) {
    // From here on its light is spread: the walk may stand for all its wavelengths again.
    if (!is_delta(vertex.bsdf) && parted_m(stage, walk, differential) < stage.dispersion_limit_m) {
        stand_for_all_wavelengths(walk);
    }
    const float u = random.next();
    const float v = random.next();
    const Vec3 numbers(u, v, random.next());
    const int edge = walk.edge;
    const float drawn = walk.per_join * walk.weights.join * walk.sheet_density;
    if (!scatter(stage, walk, vertex, Carrying::kFlux, numbers, random)) return false;
    if (walk.edge == edge) return true;
    differential.leave(stage, vertex, walk);
    walk.per_join = edge == 1 ? drawn : 0.0F;
    return uses_light_walk(stage, walk);
}

}  // namespace

SobolOwen4d light_walk_starts(const Stage& stage, int fixture) {
    return SobolOwen4d(static_cast<uint32_t>(
        mix_bits(mix_bits(stage.seed, stage.pass),
                 mix_bits(static_cast<uint64_t>(fixture),
                          static_cast<uint64_t>(Purpose::kLightWalkScramble)))));
}

void trace_light_walk(const Stage& stage,
                      int fixture,
                      const SobolOwen4d& starts,
                      int index,
                      LightSink& sink,
                      PhotonList* photons,
                      WalkCounts& counts) {
    RandomStream random(
        stage.seed, stage.pass, light_walk_name(fixture, index), Purpose::kLightWalk);
    RandomStream keeps(
        stage.seed, stage.pass, light_walk_name(fixture, index), Purpose::kKeepPhoton);
    Walk walk;
    LampLight light;
    float scale = 0;
    if (!start_walk(stage, fixture, starts, index, walk, light, scale)) return;
    MeteredWalk metered(stage, fixture, index, light, scale);
    PhotonDifferential differential = differential_of(stage, fixture, light);
    Walk begun;
    Vertex vertex;
    for (;;) {
        const float edge_begun = walk.edge_length;
        const bool may_fall = metered.may_fall(walk);
        if (may_fall) begun = walk;
        const bool found = find_next_vertex(stage, walk, vertex);
        if (may_fall) metered.fall(begun, walk.edge_length, sink);
        if (!found || vertex.is_lamp()) break;
        differential.arrive(walk.edge_length - edge_begun, walk.ray.direction, vertex.at.geometric);
        if (walk.edge == 1) weigh_first_edge(stage, fixture, light, vertex, walk);
        if (walk.edge <= stage.max_bounces && !is_delta(vertex.bsdf) &&
            uses_light_walk(stage, walk)) {
            if (photons && stage.merge_cells) stage.merge_cells->fetch(vertex.at.position);
            if (stage.makes_frame) {
                join_to_lens(stage, fixture, walk, vertex, differential, scale, random, sink);
            }
            if (photons) {
                keep_photon(stage, fixture, walk, vertex, differential, scale, keeps, *photons);
            }
            if (metered.is_joined()) metered.join(walk, vertex, sink);
        }
        if (!leave_vertex(stage, walk, vertex, differential, random)) break;
        if (!walk.only_smooth && !stage.makes_frame && !metered.is_joined()) break;
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
