#include "transport/sensor_walk.h"

#include <cmath>

#include "math/sequences.h"

namespace dapple {

std::array<float, 4> SensorNumbers::set(uint32_t number) const {
    return sobol_owen_4d(index_, static_cast<uint32_t>(mix_bits(scramble_, number)));
}

Vec3 SensorNumbers::scatter(int edge) {
    if (edge <= 1) {
        const auto s = set(1);
        return Vec3(s[0], s[1], s[2]);
    }
    const float u = random.next();
    const float v = random.next();
    return Vec3(u, v, random.next());
}

std::array<float, 2> SensorNumbers::lamp(int edge, size_t fixture) {
    if (edge > 1) {
        const float u = random.next();
        return {u, random.next()};
    }
    // At the receptor and at the first surface: two halves of one set.
    const auto s = set(2 + static_cast<uint32_t>(fixture));
    const size_t half = edge == 0 ? 2 : 0;
    return {s[half], s[half + 1]};
}

namespace {

// How many light walks of the fixture may make the same path, for each sensor walk.
float light_walks(const Stage& stage, SensorEnd end, size_t fixture, bool only_smooth) {
    return end == SensorEnd::kLens ? static_cast<float>(stage.light_walks[fixture])
                                   : stage.light_walks_per_meter_walk(fixture, only_smooth);
}

const PartialWeights& weights_of(SensorEnd end, const Walk& walk) {
    return end == SensorEnd::kLens ? walk.weights : walk.unmerged;
}

// A lamp met by the walk (E46).
void add_emission(const Stage& stage,
                  SensorEnd end,
                  const Walk& walk,
                  const Vertex& vertex,
                  std::span<Spectrum> by_fixture) {
    const auto fixture = static_cast<size_t>(vertex.at.lamp);
    const Emitter& emitter = stage.emitters[fixture];
    const LampLight light = emitter.eval(vertex.at.position, vertex.wo_world);
    if (!(light.luminance > 0.0F)) return;
    float weight = 1;
    if (walk.edge > 1 || end == SensorEnd::kReceptor) {
        const float asked = emitter.pdf_towards(walk.last_position, light.position, light.normal);
        const float walked = light_walks(stage, end, fixture, walk.only_smooth) * light.pdf_area *
                             light.pdf_direction;
        const PartialWeights& w = weights_of(end, walk);
        weight = 1.0F / (1.0F + asked * w.join + walked * w.reversed);
    }
    by_fixture[fixture] += walk.throughput * (light.luminance * weight);
}

// Next-event estimation of one fixture (E47).
void add_direct_light(const Stage& stage,
                      SensorEnd end,
                      Walk& walk,
                      const Vertex& vertex,
                      size_t fixture,
                      const std::array<float, 2>& u,
                      std::span<Spectrum> by_fixture) {
    const Emitter& emitter = stage.emitters[fixture];
    LampLight light;
    if (!emitter.sample_towards(vertex.at.position, u[0], u[1], light)) return;
    const Direction wi_world = -light.direction;
    const Direction wi = vertex.frame.to_local(wi_world);
    if (!sides_agree(vertex, wi_world, wi.z)) return;
    const Spectrum f = eval(vertex.bsdf, vertex.wo, wi, Carrying::kRadiance);
    if (f.is_black()) return;
    const Vec3 to_lamp = light.position - vertex.at.position;
    const float distance2 = glm::dot(to_lamp, to_lamp);
    Connection connection;
    if (!connect(stage, walk, vertex, light.position, wi_world, std::sqrt(distance2), connection)) {
        return;
    }
    const float cos_lamp = emitter.is_point() ? 1.0F : glm::dot(light.normal, light.direction);
    const float wi_geometric = std::abs(glm::dot(vertex.at.geometric, wi_world));
    // The other ways to the same path, over the way taken: the camera walk meets the lamp; the
    // light walk comes here, and its vertex here or an earlier one is joined to the lens.
    const float met = emitter.is_point() ? 0.0F
                                         : pdf(vertex.bsdf, vertex.wo, wi) * cos_lamp /
                                               (distance2 * light.pdf_towards);
    const float reverse = pdf(vertex.bsdf, wi, vertex.wo);
    const float walked = light_walks(stage, end, fixture, false) * light.pdf_area *
                         light.pdf_direction * wi_geometric / (distance2 * light.pdf_towards);
    const PartialWeights& w = weights_of(end, walk);
    // Photons straight from the lamp are merged here where all before was smooth.
    const bool merges =
        end == SensorEnd::kLens && walk.edge > 1 && walk.only_smooth && may_merge(stage, vertex);
    const float others =
        connection.probability * (met + walked * (w.joinable(walk.edge) + w.reversed * reverse +
                                                  (merges ? stage.merge_area : 0.0F)));
    by_fixture[fixture] += walk.throughput * f * connection.transmittance *
                           (light.luminance * std::abs(wi.z) * cos_lamp /
                            (distance2 * light.pdf_towards * (1.0F + others)));
}

// What one photon brings to the vertex, per m² of the merging area and without its flux; its weight
// in it (E65).
Spectrum merged(const Stage& stage, const Walk& walk, const Vertex& vertex, const Photon& photon) {
    if (photon.material != vertex.at.material) return Spectrum(0.0F);
    const float cos_geometric = std::abs(glm::dot(vertex.at.geometric, photon.direction));
    const Direction wi = vertex.frame.to_local(photon.direction);
    if (!sides_agree(vertex, photon.direction, wi.z) || cos_geometric < 1e-3F) {
        return Spectrum(0.0F);
    }
    const Spectrum f = eval(vertex.bsdf, vertex.wo, wi, Carrying::kRadiance);
    if (f.is_black()) return f;
    const float others =
        (photon.joinable + (photon.reversed + photon.shiny) * pdf(vertex.bsdf, vertex.wo, wi) +
         walk.weights.reversed * pdf(vertex.bsdf, wi, vertex.wo)) /
        stage.merge_area;
    return f * (std::abs(wi.z) / (cos_geometric * (1.0F + others)));
}

// Photons around the vertex: a disc of the merging area in its plane, kernel 2 (1 - d²/r²) (E65).
void add_merged_photons(const Stage& stage,
                        const Walk& walk,
                        const Vertex& vertex,
                        std::span<Spectrum> by_fixture) {
    if (!stage.photons || walk.edge == 1 || !walk.only_shiny || !may_merge(stage, vertex)) return;
    const float radius2 = square(stage.photons->radius);
    const auto visit = [&](const Photon& photon, float distance2) {
        const float off_plane =
            std::abs(glm::dot(photon.position - vertex.at.position, vertex.at.geometric));
        // Not across an edge or a corner.
        const float alike = glm::dot(photon.normal, vertex.at.geometric);
        if (off_plane > 0.5F * stage.photons->radius || alike < 0.8F) return;
        const float kernel = 2.0F * (1.0F - distance2 / radius2) / stage.merge_area;
        by_fixture[static_cast<size_t>(photon.fixture)] +=
            walk.throughput * photon.flux * merged(stage, walk, vertex, photon) * kernel;
    };
    stage.photons->caustic.gather(vertex.at.position, visit);
    if (walk.only_smooth) stage.photons->other.gather(vertex.at.position, visit);
}

}  // namespace

void follow_sensor_walk(const Stage& stage,
                        SensorEnd end,
                        Walk& walk,
                        SensorNumbers& numbers,
                        std::span<Spectrum> by_fixture) {
    Vertex vertex;
    while (find_next_vertex(stage, walk, vertex)) {
        if (vertex.is_lamp()) {
            add_emission(stage, end, walk, vertex, by_fixture);
            break;
        }
        if (walk.edge <= stage.max_bounces && !is_delta(vertex.bsdf)) {
            for (size_t f = 0; f < stage.emitters.size(); ++f) {
                if (!stage.emitters[f].may_reach(vertex.at.position)) continue;
                const auto u = numbers.lamp(walk.edge, f);
                add_direct_light(stage, end, walk, vertex, f, u, by_fixture);
            }
            if (end == SensorEnd::kLens) add_merged_photons(stage, walk, vertex, by_fixture);
        }
        const Vec3 u = numbers.scatter(walk.edge);
        if (!scatter(stage, walk, vertex, Carrying::kRadiance, u, numbers.random)) break;
    }
}

}  // namespace dapple
