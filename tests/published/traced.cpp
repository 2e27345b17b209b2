#include "published/traced.h"

#include <algorithm>
#include <cmath>

namespace dapple::published {

namespace {

constexpr float kLast = 0.99999994F;  // the largest float below 1

Scene with_silica() {
    Scene scene;
    test::add_material(scene, test::clear_glass("silica", GlassType::kSilica));
    return scene;
}

void split(const Bench& bench, const Walk& walk, float index, double share, PaneLight& light) {
    if (share < 1e-9) return;
    Walk arriving = walk;
    Vertex vertex;
    if (!find_vertex(bench, arriving, index, vertex)) {
        (walk.ray.direction.x > 0 ? light.on : light.back) += share * walk.light.throughput[0];
        return;
    }
    for (const Choice choice : {Choice::kReflect, Choice::kRefract}) {
        Walk next = arriving;
        const double chance = go_on(bench, next, vertex, choice);
        if (chance > 0) split(bench, next, index, share * chance, light);
    }
}

}  // namespace

Wavelengths all_at(double nm) {
    return {Spectrum(static_cast<float>(nm)), Spectrum(1.0F)};
}

Bench::Bench(Scene scene, const Wavelengths& wavelengths)
    : scene_(std::move(scene)),
      world_(scene_),
      lens_(scene_.camera),
      emitters_(scene_.fixtures.begin(), scene_.fixtures.end()),
      scene_materials_(scene_),
      materials_(scene_materials_, wavelengths),
      stage_{.scene = scene_,
             .world = world_,
             .lens = lens_,
             .emitters = emitters_,
             .materials = materials_,
             .walks = {.light = std::vector<int>(emitters_.size(), 0),
                       .joined_to_meters = {},
                       .beams = {}},
             .start = find_start_media(scene_, world_)} {}

Bench::Bench(Scene scene, double nm) : Bench(std::move(scene), all_at(nm)) {}

Walk Bench::walk(const Point& origin, const glm::dvec3& direction) {
    Walk walk;
    walk.ray.origin = origin;
    walk.ray.direction = Direction(glm::normalize(direction));
    return walk;
}

Mesh drawn_out(const std::vector<Vec2>& polygon, float half, MaterialId material) {
    Mesh mesh;
    const size_t n = polygon.size();
    const auto at = [&](size_t i, float z) { return Point(polygon[i % n].x, polygon[i % n].y, z); };
    for (size_t i = 0; i < n; ++i) {
        test::add_quad(
            mesh, at(i, -half), at(i + 1, -half), at(i + 1, half), at(i, half), material);
    }
    for (const float z : {half, -half}) {
        const auto first = static_cast<unsigned>(mesh.positions.size());
        for (size_t i = 0; i < n; ++i) mesh.positions.push_back(at(i, z));
        for (unsigned i = 1; i + 1 < n; ++i) {
            const unsigned a = first + i;
            const unsigned b = first + i + 1;
            mesh.triangles.emplace_back(first, z > 0 ? a : b, z > 0 ? b : a);
            mesh.materials.push_back(material);
        }
    }
    return mesh;
}

Scene solid_scene(const std::vector<Vec2>& polygon, float half) {
    Scene scene = with_silica();
    scene.room.push_back(drawn_out(polygon, half, 0));
    return scene;
}

Scene pane_scene(float thickness, float half) {
    const float x = 0.5F * thickness;
    return solid_scene({Vec2(-x, -half), Vec2(x, -half), Vec2(x, half), Vec2(-x, half)}, half);
}

Scene ball_scene(GlassType glass) {
    Scene scene;
    const MaterialId material = test::add_material(scene, test::clear_glass("ball", glass));
    const Point base(0, -kBallRadius, 0);
    scene.glasses.push_back(test::ball_at(base, 2 * kBallRadius, material));
    return scene;
}

bool find_vertex(const Bench& bench, Walk& walk, float index, Vertex& vertex) {
    if (!find_next_vertex(bench.stage(), walk, vertex)) return false;
    auto* glass = std::get_if<SmoothGlass>(&vertex.bsdf.kind);
    if (glass && index != kCatalogueIndex) *glass = SmoothGlass{Spectrum(index)};
    return true;
}

double go_on(const Bench& bench, Walk& walk, const Vertex& vertex, Choice choice) {
    Vertex framed = vertex;
    framed.make_local_frame();
    const Vec3 u(0.5F, 0.5F, choice == Choice::kReflect ? 0.0F : kLast);
    BsdfSample s;
    if (!sample(vertex.bsdf, framed.wo(), u, Carrying::kFlux, s)) return 0;
    if (s.transmitted != (choice == Choice::kRefract)) return 0;
    RandomStream unused(
        1, 0, 0, Purpose::kLightWalk);  // light walks through clear glass stay whole
    const ScatterResult result = scatter(bench.stage(), walk, vertex, Carrying::kFlux, u, unused);
    return result == ScatterResult::kEnded ? 0.0 : s.pdf;
}

std::optional<Passage> pass_through(const Bench& bench, Walk walk, float index) {
    Passage passage;
    Vertex vertex;
    if (!find_vertex(bench, walk, index, vertex)) return {};
    passage.entry = vertex.at.position;
    passage.share = go_on(bench, walk, vertex, Choice::kRefract);
    passage.inside = glm::normalize(glm::dvec3(walk.ray.direction));
    if (passage.share == 0 || !find_vertex(bench, walk, index, vertex)) return {};
    passage.exit = vertex.at.position;
    passage.share *= go_on(bench, walk, vertex, Choice::kRefract);
    passage.direction = glm::normalize(glm::dvec3(walk.ray.direction));
    passage.transmittance = walk.light.throughput[walk.light.hero];
    if (passage.share == 0) return {};
    return passage;
}

PaneLight split_at_pane(const Bench& bench, const Walk& walk, float index) {
    PaneLight light;
    split(bench, walk, index, 1, light);
    return light;
}

std::optional<Direction> let_go(const Bench& bench, Walk& walk, float index, RandomStream& random) {
    Vertex vertex;
    while (find_vertex(bench, walk, index, vertex)) {
        const float u = random.next();
        const float v = random.next();
        const Vec3 numbers(u, v, random.next());
        if (scatter(bench.stage(), walk, vertex, Carrying::kFlux, numbers, random) ==
            ScatterResult::kEnded)
            return {};
    }
    return walk.ray.direction;
}

void Tally::add(double value) {
    sum_ += value;
    squares_ += value * value;
}

Estimate Tally::mean_of(int64_t walks) const {
    const auto n = static_cast<double>(walks);
    const double mean = sum_ / n;
    return {mean, std::sqrt(std::max(0.0, squares_ / n - mean * mean) / n)};
}

double degrees_between(const glm::dvec3& a, const glm::dvec3& b) {
    return degrees_from_radians(std::atan2(glm::length(glm::cross(a, b)), glm::dot(a, b)));
}

glm::dvec3 heading(double degrees) {
    const double angle = radians_from_degrees(degrees);
    return {std::cos(angle), std::sin(angle), 0};
}

}  // namespace dapple::published
