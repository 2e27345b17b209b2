#include "transport/sensor_walk.h"

#include <algorithm>
#include <cmath>

#include "math/sequences.h"
#include "transport/partition.h"
#include "transport/photon_differential.h"
#include "transport/sheet_join.h"
#include "transport/soft_splat.h"

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

SensorNumbers::Sheet SensorNumbers::sheet(int edge, size_t fixture) {
    if (edge > 1) {
        Sheet numbers;
        for (float& u : numbers.point) u = random.next();
        for (float& u : numbers.lamp) u = random.next();
        return numbers;
    }
    constexpr uint32_t kAfterLamps = 1U << 16U;
    const auto number =
        kAfterLamps + 4 * static_cast<uint32_t>(fixture) + 2 * static_cast<uint32_t>(edge);
    const auto a = set(number);
    const auto b = set(number + 1);
    return {{a[0], a[1], a[2]}, {b[0], b[1]}};
}

namespace {

// How many light walks of the fixture may make the same path, for each sensor walk.
float light_walks(const Stage& stage, SensorEnd end, size_t fixture, bool only_smooth) {
    return end == SensorEnd::kLens ? static_cast<float>(stage.light_walks[fixture])
                                   : stage.light_walks_per_meter_walk(fixture, only_smooth);
}

PartialWeights weights_of(SensorEnd end, const Walk& walk) {
    return end == SensorEnd::kLens ? walk.weights : walk.weights.without_merging();
}

// Density over that of this walk's last step with which the point on cloth where the present vertex
// lies, or where the present edge began, would have been drawn by sheet sampling (E71).
float drawn_here(
    const Stage& stage, SensorEnd end, const Walk& walk, const Vertex& vertex, size_t fixture) {
    if (!stage.sheets || (walk.edge == 1 && end == SensorEnd::kLens)) return 0;
    return stage.sheets->density(fixture, vertex.at) * walk.weights.join;
}
float drawn_before(const Stage& stage, const Walk& walk, size_t fixture) {
    const Walk::LastSheet& last = walk.last_sheet;
    if (!stage.sheets || last.sheet < 0) return 0;
    return stage.sheets->density(fixture, last.sheet, last.barycentric) * last.join;
}

// The sums for light walks that are scattered, here or earlier, on their way to the sensor.
float walked_to_end(const Walk& walk, const PartialWeights& w) {
    return walk.soft_weight * w.reversed + w.merged;
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
    const bool from_lens = end == SensorEnd::kLens;
    if (!counts_lamp(stage, from_lens, end == SensorEnd::kPointReceptor, walk)) return;
    float weight = 1;
    if (!stage.partition && (walk.edge > 1 || !from_lens)) {
        const float asked = emitter.pdf_towards(walk.last_position, light.position, light.normal) *
                            (1.0F + drawn_before(stage, walk, fixture));
        const float walked = light_walks(stage, end, fixture, walk.only_smooth) * light.pdf_area *
                             light.pdf_direction;
        const PartialWeights w = weights_of(end, walk);
        const float by_light_walk =
            walk.rough_after_first ? walked_to_end(walk, w) : w.reversed + w.merged;
        weight = 1.0F / (1.0F + asked * w.join + walked * by_light_walk);
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
    const PartialWeights w = weights_of(end, walk);
    float others = drawn_here(stage, end, walk, vertex, fixture) +
                   connection.probability *
                       (met + walked * (walk.per_join * w.join + walked_to_end(walk, w) * reverse));
    if (stage.partition) others = 0;
    by_fixture[fixture] += walk.throughput * f * connection.transmittance *
                           (light.luminance * std::abs(wi.z) * cos_lamp /
                            (distance2 * light.pdf_towards * (1.0F + others)));
}

// One fixture's light by way of a point drawn on cloth that it lights (E71).
void add_sheet_light(const Stage& stage,
                     SensorEnd end,
                     Walk& walk,
                     const Vertex& vertex,
                     size_t fixture,
                     const SensorNumbers::Sheet& u,
                     std::span<Spectrum> by_fixture) {
    SheetPoint sheet;
    if (!draw_on_sheet(stage, fixture, vertex.at.position, u.point, walk.hero, sheet)) return;
    const Direction wi = vertex.frame.to_local(sheet.direction);
    if (!sides_agree(vertex, sheet.direction, wi.z)) return;
    const Spectrum f = eval(vertex.bsdf, vertex.wo, wi, Carrying::kRadiance);
    if (f.is_black()) return;
    SheetLight from;
    if (!ask_sheet(stage, walk, vertex, fixture, sheet, u.lamp, from)) return;
    const float per_area =
        std::abs(glm::dot(vertex.at.geometric, sheet.direction)) / square(sheet.distance);
    const float walked = light_walks(stage, end, fixture, false) * from.walked * per_area;
    const PartialWeights w = weights_of(end, walk);
    const float others = from.met * pdf(vertex.bsdf, vertex.wo, wi) +
                         walked * (walk.soft_weight * walk.per_join * w.join +
                                   walked_to_end(walk, w) * pdf(vertex.bsdf, wi, vertex.wo));
    by_fixture[fixture] += walk.throughput * f * from.light * (std::abs(wi.z) / (1.0F + others));
}

// What one photon brings to the vertex, per m² of the merging area and without its flux; its weight
// in it (E65).
Spectrum merged(const Stage& stage, const Walk& walk, const Vertex& vertex, const Photon& photon) {
    if (photon.material != vertex.at.material) return Spectrum(0.0F);
    const Direction direction = photon.direction.unpacked();
    const float cos_geometric = std::abs(glm::dot(vertex.at.geometric, direction));
    const Direction wi = vertex.frame.to_local(direction);
    if (!sides_agree(vertex, direction, wi.z) || cos_geometric < 1e-3F) {
        return Spectrum(0.0F);
    }
    const Spectrum f = eval(vertex.bsdf, vertex.wo, wi, Carrying::kRadiance);
    if (f.is_black()) return f;
    const PartialWeights& w = walk.weights;
    float others =
        (photon.joinable + (photon.reversed + photon.shiny) * pdf(vertex.bsdf, vertex.wo, wi) +
         (walked_to_end(walk, w) + w.waiting) * pdf(vertex.bsdf, wi, vertex.wo)) /
        stage.merge_area_at(vertex.at.position);
    if (stage.partition) others = 0;
    return f * (std::abs(wi.z) / (cos_geometric * (1.0F + others)));
}

// Photons around the vertex: a disc of the merging area in its plane, kernel 2 (1 - d²/r²) (E65).
void add_merged_photons(const Stage& stage,
                        const Walk& walk,
                        const Vertex& vertex,
                        std::span<Spectrum> by_fixture) {
    const bool wanted = walk.only_smooth || (walk.only_shiny && !stage.partition);
    if (!stage.photons || walk.edge == 1 || !wanted || !may_merge(stage, vertex)) return;
    const float radius2 = square(stage.photons->radius());
    const auto visit = [&](const Photon& photon, float distance2) {
        const float off_plane =
            std::abs(glm::dot(photon.position - vertex.at.position, vertex.at.geometric));
        // Not across an edge or a corner.
        const Vec3 normal(photon.normal[0], photon.normal[1], photon.normal[2]);
        const float alike = glm::dot(normal, vertex.at.geometric) / 127;
        if (off_plane > 0.5F * stage.photons->radius() || alike < 0.8F) return;
        const float kernel = 2.0F * (1.0F - distance2 / radius2) / stage.merge_area;
        by_fixture[static_cast<size_t>(photon.fixture)] +=
            walk.throughput * photon.flux.unpacked() * merged(stage, walk, vertex, photon) * kernel;
    };
    stage.photons->gather(vertex.at.position, visit);
}

// All that a vertex brings, not a delta one.
void add_light(const Stage& stage,
               SensorEnd end,
               Walk& walk,
               const Vertex& vertex,
               SensorNumbers& numbers,
               std::span<Spectrum> by_fixture) {
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        if (!stage.emitters[f].may_reach(vertex.at.position)) continue;
        const auto u = numbers.lamp(walk.edge, f);
        add_direct_light(stage, end, walk, vertex, f, u, by_fixture);
    }
    // A bounce more, on the cloth.
    const bool asks_sheets = stage.sheets && walk.edge < stage.max_bounces;
    for (size_t f = 0; asks_sheets && f < stage.emitters.size(); ++f) {
        if (!stage.sheets->lit_by(f)) continue;
        add_sheet_light(stage, end, walk, vertex, f, numbers.sheet(walk.edge, f), by_fixture);
    }
    if (end == SensorEnd::kLens) add_merged_photons(stage, walk, vertex, by_fixture);
}

}  // namespace

namespace {

// Follows what dispersive glass does to a camera walk's wavelengths, and to its pixel.
class Dispersal {
  public:
    Dispersal(const Stage& stage, SensorEnd end, const Walk& walk)
        : stage_(stage),
          follows_(end == SensorEnd::kLens && stage.dispersion_limit > 0),
          pixel_solid_angle_(walk.weights.join) {}

    void arrive(const Vertex& vertex, float distance, Walk& walk) {
        if (!follows_) return;
        const bool is_smooth = !vertex.is_lamp() && is_delta(vertex.bsdf);
        if (walk.edge == 1) {
            // Most walks see nothing smooth first: then there is nothing to follow.
            if (!is_smooth) return;
            differential_.begin(-vertex.wo_world, pixel_solid_angle_);
            distance = walk.edge_length;
        }
        differential_.arrive(distance, -vertex.wo_world, vertex.at.geometric);
        if (!walk.monochromatic || is_smooth) return;
        const float pixel = std::max(glm::length(differential_.half_axis(0)),
                                     glm::length(differential_.half_axis(1)));
        const float limit = kShare * stage_.dispersion_limit * pixel;
        if (parted_m(stage_, walk, differential_) < limit) stand_for_all_wavelengths(walk);
    }

    void leave(const Vertex& vertex, const Walk& walk) {
        if (!follows_) return;
        differential_.leave(stage_, vertex, walk);
        follows_ = differential_.is_known();
    }

  private:
    static constexpr float kShare = 0.25F;  // of the limit for splats, in pixels as seen there

    const Stage& stage_;
    bool follows_;
    float pixel_solid_angle_;
    PhotonDifferential differential_;
};

}  // namespace

void follow_sensor_walk(const Stage& stage,
                        SensorEnd end,
                        Walk& walk,
                        SensorNumbers& numbers,
                        std::span<Spectrum> by_fixture) {
    Vertex vertex;
    Dispersal dispersal(stage, end, walk);
    float edge_begun = 0;
    while (find_next_vertex(stage, walk, vertex)) {
        dispersal.arrive(vertex, walk.edge_length - edge_begun, walk);
        edge_begun = walk.edge_length;
        if (vertex.is_lamp()) {
            add_emission(stage, end, walk, vertex, by_fixture);
            break;
        }
        if (walk.edge == 1 && end == SensorEnd::kLens) {
            walk.soft_weight = soft_splat_weight(stage, vertex.bsdf);
        }
        if (walk.edge <= stage.max_bounces && !is_delta(vertex.bsdf)) {
            add_light(stage, end, walk, vertex, numbers, by_fixture);
        }
        Walk::LastSheet sheet{vertex.at.sheet, vertex.at.barycentric, walk.weights.join};
        if (walk.edge == 1 && end == SensorEnd::kLens) sheet.sheet = -1;
        const int edge = walk.edge;
        const Vec3 u = numbers.scatter(edge);
        if (!scatter(stage, walk, vertex, Carrying::kRadiance, u, numbers.random)) break;
        if (walk.edge > edge) {
            walk.last_sheet = sheet;
            dispersal.leave(vertex, walk);
            edge_begun = 0;
        }
    }
}

}  // namespace dapple
