#include "transport/light_walk.h"

#include <cmath>

#include "math/sequences.h"

namespace dapple {

namespace {

// The walk's end point on the lamp and its first ray (E48). The points of one pass are a scrambled
// Sobol sequence over lamp and direction, scrambled anew each pass.
bool start_walk(
    const Stage& stage, int fixture, int index, Walk& walk, LampLight& light, float& scale) {
    const Emitter& emitter = stage.emitters[static_cast<size_t>(fixture)];
    const auto scramble = static_cast<uint32_t>(
        mix_bits(mix_bits(stage.seed, stage.pass),
                 mix_bits(static_cast<uint64_t>(fixture),
                          static_cast<uint64_t>(Purpose::kLightWalkScramble))));
    const auto u = sobol_owen_4d(static_cast<uint32_t>(index), scramble);
    light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
    if (!(light.luminance > 0.0F)) return false;
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

// The vertex as the camera sees it (E49).
void join_to_lens(const Stage& stage,
                  int fixture,
                  Walk& walk,
                  const Vertex& vertex,
                  float scale,
                  RandomStream& random,
                  LightSink& sink) {
    if (is_delta(vertex.bsdf)) return;
    Lens::Projection seen;
    const float lens_u = random.next();
    const float lens_v = random.next();
    if (!stage.lens.project(vertex.at.position, lens_u, lens_v, seen)) return;
    // The frame that a camera walk coming from the lens would use.
    const bool lens_sees_shading =
        glm::dot(vertex.interpolated, seen.to_lens) * glm::dot(vertex.at.geometric, seen.to_lens) >
        0.0F;
    if (lens_sees_shading && vertex.shading_faces_away) return;
    const Frame frame = lens_sees_shading ? vertex.frame : Frame(vertex.at.geometric);
    const Direction wo = frame.to_local(vertex.wo_world);
    const Direction wi = frame.to_local(seen.to_lens);
    if (!sides_agree(vertex, seen.to_lens, wi.z)) return;
    const Spectrum f = eval(vertex.bsdf, wo, wi, Carrying::kFlux);
    if (f.is_black()) return;
    Connection connection;
    if (!connect(stage, walk, vertex, seen.lens_point, seen.to_lens, seen.distance, connection)) {
        return;
    }
    // Density per m² of the camera meeting this point, for one pixel; the cosine there and the
    // adjoint correction for shading normals make |wo·ns| / |wo·ng| (Veach 1997, section 5.3).
    const float wi_geometric = std::abs(glm::dot(vertex.at.geometric, seen.to_lens));
    const float camera_density =
        seen.pdf_direction * wi_geometric / (seen.distance * seen.distance);
    const float adjoint = std::abs(wo.z) / vertex.cos_geometric;
    const float reverse = pdf(vertex.bsdf, wi, wo);
    const float others = camera_density * connection.probability *
                         (walk.weights.joinable(walk.edge) + walk.weights.reversed * reverse);
    sink.add_splat(seen.raster,
                   vertex.at,
                   fixture,
                   walk.throughput * f * connection.transmittance * through_port(stage) *
                       (scale * adjoint * camera_density / (1.0F + others)));
}

}  // namespace

void trace_light_walk(
    const Stage& stage, int fixture, int index, LightSink& sink, WalkCounts& counts) {
    RandomStream random(stage.seed,
                        stage.pass,
                        (static_cast<uint64_t>(fixture) << 40U) + static_cast<uint64_t>(index),
                        Purpose::kLightWalk);
    Walk walk;
    LampLight light;
    float scale = 0;
    if (!start_walk(stage, fixture, index, walk, light, scale)) return;
    const Emitter& emitter = stage.emitters[static_cast<size_t>(fixture)];
    Vertex vertex;
    while (find_next_vertex(stage, walk, vertex) && !vertex.is_lamp()) {
        if (walk.edge == 1) {
            walk.weights.join *=
                emitter.pdf_towards(vertex.at.position, light.position, light.normal);
        }
        join_to_lens(stage, fixture, walk, vertex, scale, random, sink);
        const float u = random.next();
        const float v = random.next();
        const Vec3 numbers(u, v, random.next());
        if (!scatter(stage, walk, vertex, Carrying::kFlux, numbers, random)) break;
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
