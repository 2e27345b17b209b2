#include "transport/camera_walk.h"

#include <array>
#include <cmath>

#include "math/sequences.h"

namespace dapple {

namespace {

// Uniform numbers of one camera walk. The first decisions of a pixel are scrambled Sobol points
// over passes, so that edges, penumbrae and first bounces even out faster; later ones are random.
class CameraNumbers {
  public:
    CameraNumbers(const Stage& stage, uint64_t pixel)
        : random(stage.seed, stage.pass, pixel, Purpose::kCameraWalk),
          pass_(stage.pass),
          pixel_(
              mix_bits(stage.seed, mix_bits(pixel, static_cast<uint64_t>(Purpose::kCameraWalk)))) {}

    std::array<float, 4> film_and_aperture() const { return set(0); }

    Vec3 scatter(int edge) {
        if (edge == 1) {
            const auto s = set(1);
            return Vec3(s[0], s[1], s[2]);
        }
        const float u = random.next();
        const float v = random.next();
        return Vec3(u, v, random.next());
    }

    // Eight passes give a pixel each of its eight heroes once.
    int hero() const { return static_cast<int>((pixel_ + pass_) % kSpectrumSize); }

    std::array<float, 2> lamp(int edge, size_t fixture) {
        if (edge > 1) {
            const float u = random.next();
            return {u, random.next()};
        }
        const auto s = set(2 + static_cast<uint32_t>(fixture));
        return {s[0], s[1]};
    }

    RandomStream random;

  private:
    std::array<float, 4> set(uint32_t number) const {
        return sobol_owen_4d(pass_, static_cast<uint32_t>(mix_bits(pixel_, number)));
    }

    uint32_t pass_;
    uint64_t pixel_;
};

// A lamp met by the walk (E46).
void add_emission(const Stage& stage,
                  const Walk& walk,
                  const Vertex& vertex,
                  std::span<Spectrum> by_fixture) {
    const auto fixture = static_cast<size_t>(vertex.at.lamp);
    const Emitter& emitter = stage.emitters[fixture];
    const LampLight light = emitter.eval(vertex.at.position, vertex.wo_world);
    if (!(light.luminance > 0.0F)) return;
    float weight = 1;
    if (walk.edge > 1) {
        const float asked = emitter.pdf_towards(walk.last_position, light.position, light.normal);
        const float walked =
            static_cast<float>(stage.light_walks[fixture]) * light.pdf_area * light.pdf_direction;
        weight = 1.0F / (1.0F + asked * walk.weights.join + walked * walk.weights.reversed);
    }
    by_fixture[fixture] += walk.throughput * (light.luminance * weight);
}

// Next-event estimation of one fixture (E47).
void add_direct_light(const Stage& stage,
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
    const float walked = static_cast<float>(stage.light_walks[fixture]) * light.pdf_area *
                         light.pdf_direction * wi_geometric / (distance2 * light.pdf_towards);
    const float others =
        connection.probability *
        (met + walked * (walk.weights.joinable(walk.edge) + walk.weights.reversed * reverse));
    by_fixture[fixture] += walk.throughput * f * connection.transmittance *
                           (light.luminance * std::abs(wi.z) * cos_lamp /
                            (distance2 * light.pdf_towards * (1.0F + others)));
}

}  // namespace

void trace_camera_walk(
    const Stage& stage, int x, int y, std::span<Spectrum> by_fixture, WalkCounts& counts) {
    const Camera& camera = stage.scene.camera;
    const auto pixel =
        static_cast<uint64_t>(y) * static_cast<uint64_t>(camera.width) + static_cast<uint64_t>(x);
    CameraNumbers numbers(stage, pixel);
    const auto start_numbers = numbers.film_and_aperture();
    const Lens::Start start = stage.lens.sample_ray(
        Vec2(static_cast<float>(x) + start_numbers[0], static_cast<float>(y) + start_numbers[1]),
        start_numbers[2],
        start_numbers[3]);
    Walk walk;
    walk.ray = start.ray;
    walk.media = stage.start.lens;
    walk.throughput = through_port(stage);
    walk.hero = numbers.hero();
    walk.weights.join = 1.0F / start.pdf_direction;
    Vertex vertex;
    while (find_next_vertex(stage, walk, vertex)) {
        if (vertex.is_lamp()) {
            add_emission(stage, walk, vertex, by_fixture);
            break;
        }
        if (!is_delta(vertex.bsdf)) {
            for (size_t f = 0; f < stage.emitters.size(); ++f) {
                if (!stage.emitters[f].may_reach(vertex.at.position)) continue;
                add_direct_light(stage, walk, vertex, f, numbers.lamp(walk.edge, f), by_fixture);
            }
        }
        const Vec3 u = numbers.scatter(walk.edge);
        if (!scatter(stage, walk, vertex, Carrying::kRadiance, u, numbers.random)) break;
    }
    counts.rays += walk.rays;
    counts.nonfinite += walk.nonfinite;
}

}  // namespace dapple
