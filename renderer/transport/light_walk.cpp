#include "transport/light_walk.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "transport/dispersed_splat.h"
#include "transport/haze/leave_beam.h"
#include "transport/light_at_meters.h"
#include "transport/partition.h"
#include "transport/sensor_join.h"
#include "transport/soft_splat.h"
#include "transport/through_lens.h"

namespace dapple {

namespace {

// A light walk while it is traced.
struct LightWalk {
    LightWalkStart start;
    Walk walk;
    // Density with which sheet sampling samples the walk's first vertex (lit_sheets.h), per m².
    float sheet_density = 0;
    PhotonDifferential differential;
    RandomStream random;
    RandomStream photon_random;  // decides which photons are kept
    RandomStream store_random;   // decides which vertices are stored
    int light_cell = -1;         // of the present vertex (connection_table.h)
    int light_cell_before = -1;  // of the vertex where the present edge began

    LightWalk(const Stage& stage, int fixture, int index)
        : LightWalk(stage, fixture, index, light_walk_name(fixture, index)) {}

  private:
    LightWalk(const Stage& stage, int fixture, int index, uint64_t name)
        : start{.fixture = fixture, .index = index},
          random(stage.seed, stage.pass, name, Purpose::kLightWalk),
          photon_random(stage.seed, stage.pass, name, Purpose::kKeepPhoton),
          store_random(stage.seed, stage.pass, name, Purpose::kStoreVertex) {}
};

// Samples the walk's start on the lamp and its first ray (E69). False if the lamp sends no light in
// that direction.
bool leave_lamp(const Stage& stage, const SobolOwen4d& starts, LightWalk& light) {
    const auto fixture = static_cast<size_t>(light.start.fixture);
    const Emitter& emitter = stage.emitters[fixture];
    const auto u = starts.point(static_cast<uint32_t>(light.start.index));
    const LampLight lamp = light.start.lamp = emitter.sample_emission(u[0], u[1], u[2], u[3]);
    // Rounding can put a direction exactly on the lamp's horizon, where the density is 0.
    if (!(lamp.luminance > 0.0F && lamp.pdf_direction > 0.0F)) return false;
    const float density = stage.light_walks(fixture) * lamp.pdf_area * lamp.pdf_direction;
    light.start.lumens = lamp.luminance * lamp.cos_lamp / density;
    Walk& walk = light.walk;
    walk.light.hero =
        static_cast<int>((static_cast<uint32_t>(light.start.index) + stage.pass) % kSpectrumSize);
    // weigh_first_edge() multiplies `join` by the density of this point of the lamp as the first
    // vertex samples it.
    walk.weights.join = 1.0F / density;
    walk.weights.reversed = emitter.is_point() ? 0.0F : lamp.cos_lamp / density;
    walk.last_position = lamp.position;
    if (fixture < stage.start.lamps.size()) walk.media = stage.start.lamps[fixture];
    SurfacePoint at;
    at.position = lamp.position;
    at.geometric = lamp.normal;
    walk.ray = Ray{offset_origin(at, lamp.direction), lamp.direction, 0.0F, kInfinity};
    if (stage.footprint_overlap > 0) {
        const float walks_per_sr = stage.light_walks(fixture) * lamp.pdf_direction;
        light.differential.begin(lamp.direction, stage.footprint_overlap / walks_per_sr);
    }
    return true;
}

// At the first vertex: the density with which next-event estimation from the vertex samples the
// lamp's point, and the density with which sheet sampling samples the vertex.
void weigh_first_edge(const Stage& stage, const Vertex& vertex, LightWalk& light) {
    const auto fixture = static_cast<size_t>(light.start.fixture);
    const LampLight& lamp = light.start.lamp;
    light.walk.weights.join *=
        stage.emitters[fixture].pdf_towards(vertex.at.position, lamp.position, lamp.normal);
    if (stage.sheets) light.sheet_density = stage.sheets->density(fixture, vertex.at);
}

// The probability with which a sensor walk's vertex here would ask for the light that came over the
// present edge: on the first edge for the lamp's, on the second edge for that of lit cloth.
float asked_over_edge(const Stage& stage,
                      const Vertex& vertex,
                      const LightWalk& light,
                      bool seen_first) {
    const int edge = light.walk.edge;
    if (!stage.asked || edge > 2 || !(light.walk.weights.per_join > 0)) return 1;
    const Asked asked = stage.asked_at(vertex.at, seen_first);
    const auto fixture = static_cast<size_t>(light.start.fixture);
    return edge == 1 ? asked.lamp(fixture) : asked.sheet(fixture);
}

// κ · join: the camera walk that sees this vertex as its first rough one is connected to the vertex
// before (E95).
float connected(const Stage& stage, const Vertex& vertex, const LightWalk& light) {
    if (light.light_cell_before < 0) return 0;
    return stage.connection_density(receiver_cell_of(stage, vertex), light.light_cell_before) *
           stage.stored_flux(static_cast<size_t>(light.start.fixture));
}

Footprint footprint_of(const Stage& stage,
                       const Vertex& vertex,
                       const PhotonDifferential& differential) {
    Footprint footprint;
    footprint.known = differential.is_known();
    footprint.widest_px = widest_splat_px(stage, vertex.bsdf);
    for (size_t i = 0; i < 2 && footprint.known; ++i) {
        footprint.half_axes[i] =
            stage.lens.raster_change(vertex.at.position, differential.half_axis(i));
    }
    return footprint;
}

void join_to_lens(const Stage& stage, const Vertex& vertex, LightWalk& light, LightSink& sink) {
    Walk& walk = light.walk;
    Lens::Projection seen;
    if (!project_to_lens(stage, walk, vertex.at.position, light.random, seen)) return;
    SensorView lens;
    lens.target = {seen.lens_point, seen.to_lens, seen.distance};
    lens.weights = walk.weights;
    lens.weights.per_join *= asked_over_edge(stage, vertex, light, true);
    lens.weights.per_join += connected(stage, vertex, light);
    lens.soft_weight = walk.history.only_smooth() ? 1.0F : soft_splat_weight(stage, vertex.bsdf);
    lens.response = seen.response;
    lens.pdf_direction = seen.pdf_direction;
    const DispersedSplat splat(stage, walk, vertex, light.differential);
    Spectrum carried = splat.lands_whole() ? walk.light.undispersed : walk.light.throughput;
    if (stage.lens.is_glass()) carried *= through_lens(stage, seen.passed, walk.light);
    const auto luminance = join_to_sensor(stage, walk, {vertex, carried, light.start.lumens}, lens);
    if (!luminance) return;
    DispersedSplat::Room room;
    sink.add_splat(splat.lay_out(seen.raster, *luminance * through_port(stage), room),
                   footprint_of(stage, vertex, light.differential),
                   vertex.at,
                   light.start.fixture);
}

// Keeps the vertex as a photon. Where few photons are gathered, only a random share of the vertices
// is kept.
void keep_photon(const Stage& stage, const Vertex& vertex, LightWalk& light, PhotonList& photons) {
    const Walk& walk = light.walk;
    if (!walk.history.any_focusing() || !may_merge(stage, vertex)) return;
    if (vertex.shading_faces_away) return;
    const float share = stage.merge_cells ? stage.merge_cells->share(vertex.at.position) : 1.0F;
    if (share < 1.0F && light.photon_random.next() >= share) return;
    const float wide = stage.merges_wide(vertex.at.position) ? MergeCells::kWide : 1.0F;
    const bool lands_whole =
        dispersed_m(stage, walk, light.differential) < wide * stage.photon_dispersion_limit_m;
    const Spectrum& carried = lands_whole ? walk.light.undispersed : walk.light.throughput;
    Photon photon;
    photon.flux = PackedSpectrum(carried * (light.start.lumens / share));
    photon.position = vertex.at.position;
    photon.direction = PackedNormal(vertex.wo_world);
    for (int i = 0; i < 3; ++i) {
        photon.normal[static_cast<size_t>(i)] =
            static_cast<int8_t>(std::lround(127 * vertex.at.geometric[i]));
    }
    photon.connected = connected(stage, vertex, light) * walk.weights.join;
    photon.reversed = walk.weights.reversed;
    photon.shiny = is_shiny(vertex.bsdf) ? walk.weights.shiny : 0.0F;
    photon.material = vertex.at.material;
    photon.fixture = static_cast<int16_t>(light.start.fixture);
    photons.push_back(photon);
}

// Stores the vertex for connections.
void store_vertex(const Stage& stage,
                  const Vertex& vertex,
                  LightWalk& light,
                  StoredVertexList& stored) {
    if (vertex.shading_faces_away || !may_merge(stage, vertex)) return;
    const Walk& walk = light.walk;
    const bool lands_whole =
        dispersed_m(stage, walk, light.differential) < stage.dispersion_limit_m;
    const Spectrum& carried = lands_whole ? walk.light.undispersed : walk.light.throughput;
    float share = 1;
    if (stage.connections) {
        if (light.light_cell < 0) return;
        const float flux = carried.mean() * light.start.lumens / stage.usual_light_walks;
        share = stage.connections->kept_share(light.light_cell, flux);
        if (share < 1.0F && light.store_random.next() >= share) return;
    }
    const PartialWeights& w = walk.weights;
    StoredVertex y;
    y.at = vertex.at;
    y.flux = PackedSpectrum(carried * (light.start.lumens / share));
    y.wo = PackedNormal(vertex.wo_world);
    y.joinable = w.per_join * w.join;
    y.reversed = w.reversed;
    y.shiny = is_shiny(vertex.bsdf) ? w.shiny : 0.0F;
    y.by_sheet = walk.edge == 1 ? w.join * light.sheet_density : 0.0F;
    y.fixture = static_cast<int16_t>(light.start.fixture);
    y.edge = static_cast<int16_t>(walk.edge);
    y.light_cell = static_cast<int16_t>(light.light_cell);
    y.behind_focus = walk.history.any_focusing();
    stored.push_back(y);
}

// Scatters the walk, or passes straight through. False when it ends.
bool leave_vertex(const Stage& stage, const Vertex& vertex, LightWalk& light) {
    Walk& walk = light.walk;
    // A rough surface spreads the light, so from here on the walk may stand for all its wavelengths
    // again (E79).
    if (!is_delta(vertex.bsdf) &&
        dispersed_m(stage, walk, light.differential) < stage.dispersion_limit_m) {
        walk.light.stand_for_all_wavelengths();
    }
    const Vec3 u = next_three(light.random);
    const bool is_first = walk.edge == 1;
    // Connections of the second edge by sheet sampling (E89).
    const float by_sheet = walk.weights.join * light.sheet_density;
    const ScatterResult result = scatter(stage, walk, vertex, Carrying::kFlux, u, light.random);
    if (result != ScatterResult::kScattered) return result == ScatterResult::kPassed;
    light.differential.leave(stage, vertex, walk);
    light.light_cell_before = std::exchange(light.light_cell, -1);
    if (is_first) walk.weights.per_join = by_sheet;
    return uses_light_walk(stage, walk);
}

// Uses a vertex on a rough surface: joins it to the sensors and keeps it as a photon.
void use_vertex(const Stage& stage,
                const Vertex& vertex,
                LightWalk& light,
                LightAtMeters& at_meters,
                const LightWalkSinks& sinks) {
    PhotonList* const photons = sinks.photons;
    light.light_cell = light_cell_of(stage, vertex);
    if (photons && stage.merge_cells) stage.merge_cells->prefetch(vertex.at.position);
    if (stage.makes_frame) join_to_lens(stage, vertex, light, sinks.light);
    light.walk.weights.per_join *= asked_over_edge(stage, vertex, light, false);
    if (photons) keep_photon(stage, vertex, light, *photons);
    if (sinks.stored) store_vertex(stage, vertex, light, *sinks.stored);
    if (at_meters.is_joined()) at_meters.join(light.walk, vertex, sinks.light);
}

// Continues the walk to its next vertex; its light may fall on meters. False if the walk ends.
bool reach_vertex(const Stage& stage,
                  LightWalk& light,
                  const LightAtMeters& at_meters,
                  Vertex& vertex,
                  const LightWalkSinks& sinks) {
    Walk& walk = light.walk;
    const float length_before = walk.edge_length;
    light.light_cell = -1;
    const bool may_fall = at_meters.may_meet_receptor(walk);
    const bool as_beam = sinks.beams && leaves_beam(stage, light.start, walk);
    std::optional<Walk> before;
    if (may_fall || as_beam) before = walk;
    const Vec3 dispersed_before = light.differential.dispersion();
    const bool found = find_next_vertex(stage, walk, vertex);
    if (may_fall) at_meters.add_fallen_light(*before, walk.edge_length, sinks.light);
    const float length = walk.edge_length - length_before;
    const bool arrives = found && !vertex.is_lamp();
    if (arrives) light.differential.arrive(length, walk.ray.direction, vertex.at.geometric);
    if (as_beam) {
        const PhotonDifferential* const after = arrives ? &light.differential : nullptr;
        leave_beam(stage, light.start, {*before, length, dispersed_before, after}, *sinks.beams);
    }
    return arrives;
}

}  // namespace

SobolOwen4d light_walk_starts(const Stage& stage, int fixture) {
    return SobolOwen4d(static_cast<uint32_t>(
        mix_bits(mix_bits(stage.seed, stage.pass),
                 mix_bits(static_cast<uint64_t>(fixture),
                          static_cast<uint64_t>(Purpose::kLightWalkScramble)))));
}

void trace_light_walk(const Stage& stage,
                      const LightWalkName& name,
                      const SobolOwen4d& starts,
                      const LightWalkSinks& sinks,
                      WalkCounts& counts) {
    LightWalk light(stage, name.fixture, name.index);
    if (!leave_lamp(stage, starts, light)) return;
    LightAtMeters at_meters(stage, light.start);
    Walk& walk = light.walk;
    Vertex vertex;
    while (reach_vertex(stage, light, at_meters, vertex, sinks)) {
        if (walk.edge == 1) weigh_first_edge(stage, vertex, light);
        if (walk.edge <= stage.max_bounces && !is_delta(vertex.bsdf) &&
            uses_light_walk(stage, walk)) {
            use_vertex(stage, vertex, light, at_meters, sinks);
        }
        if (!leave_vertex(stage, vertex, light)) break;
        const bool may_add_light = walk.history.only_smooth() || stage.makes_frame ||
                                   at_meters.is_joined() || sinks.stored || sinks.beams;
        if (!may_add_light) break;
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
