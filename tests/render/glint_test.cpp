// Small images of lamps in mirrors and glass have the right light, and hardly any noise.
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "render/prepare/find_glints.h"
#include "render/prepare/frame_setup.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A ball half a metre before the lens in a dark room, with a small bare lamp that the lens does not
// see directly.
Scene dark_room_with_ball(const Material& of_ball, double reflectance, float lamp_diameter) {
    Scene scene = room_without_glass();
    scene.materials[0].reflectance = Rgb(static_cast<float>(reflectance));
    const MaterialId material = add_material(scene, of_ball);
    scene.camera = camera_at(Point(0), Point(0, 0, -1), 60, 40);
    scene.glasses = {ball_at(Point(0, -0.05F, -0.5F), 0.1F, material)};
    scene.fixtures = {fixture_of(FixtureForm::kBare, Point(0.9F, 0.2F, -0.2F), Point(0), 400)};
    scene.fixtures[0].source_diameter = lamp_diameter;
    return scene;
}

Material mirror(float reflectance) {
    Material m = lambertian("mirror", reflectance);
    m.kind = MaterialKind::kConductor;
    m.roughness = 0;
    return m;
}

RenderResult render(const Scene& scene, const World& world, int passes, bool finds_glints = true) {
    RenderOptions options;
    options.passes = passes;
    options.finds_glints = finds_glints;
    return render_frame(scene, world, options);
}

double frame_sum(const Film& film) {
    double sum = 0;
    for (int i = 0; i < film.pixels(); ++i) sum += film.resolve(i).y;
    return sum;
}

// Illuminance at the lens, at right angles to the light, from a point source of intensity I whose
// light a ball of radius a reflects: the beam's two widths grow with
//   s + s' + 2 s s' / (a cosθ)  and  s + s' + 2 s s' cosθ / a
// s way to the ball, s' way from there, θ angle of incidence (Coddington's equations).
double lux_by_ball(const Vec3& source, const Vec3& lens, const Vec3& centre, double a) {
    const Vec3 to_source = glm::normalize(source - centre);
    const Vec3 to_lens = glm::normalize(lens - centre);
    // The normal at the point of reflection lies between the two directions.
    double low = 0;
    double high = 1;
    Vec3 normal(0);
    Vec3 point(0);
    double cosine = 0;
    for (int i = 0; i < 60; ++i) {
        const double share = 0.5 * (low + high);
        normal = glm::normalize(glm::mix(to_lens, to_source, static_cast<float>(share)));
        point = centre + static_cast<float>(a) * normal;
        cosine = static_cast<double>(glm::dot(normal, glm::normalize(lens - point)));
        const double other = static_cast<double>(glm::dot(normal, glm::normalize(source - point)));
        (other < cosine ? low : high) = share;
    }
    const auto s = static_cast<double>(glm::distance(source, point));
    const auto t = static_cast<double>(glm::distance(lens, point));
    return 1 / ((s + t + 2 * s * t / (a * cosine)) * (s + t + 2 * s * t * cosine / a));
}

}  // namespace

TEST_CASE("a mirror ball shows a lamp of 4 mm with the light of the closed form") {
    // The lamp's image has some thousandths of a pixel, so a few hundred even walks would give 0 or
    // several times its light.
    const Scene scene = dark_room_with_ball(mirror(0.8F), 0, 0.004F);
    const World world(scene);
    const RenderResult result = render(scene, world, 16);
    const Lens lens(scene.camera);
    const double candela = 400 / (4 * kPi);
    const double lux =
        0.8 * candela * lux_by_ball(scene.fixtures[0].position, Point(0), Point(0, 0, -0.5F), 0.05);
    // The image is near the frame's middle, where a pixel has the solid angle 1/pdf. 2 %: the lamp
    // is no point, the ball is made of triangles, and the noise.
    const double expected =
        lux * static_cast<double>(lens.sample_ray(Vec2(32, 20), 0.5F, 0.5F).pdf_direction);
    CHECK(frame_sum(result.film) == doctest::Approx(expected).epsilon(0.02));
}

TEST_CASE("glints leave the mean of a frame as it is and take away its noise" *
          doctest::test_suite("figures")) {
    // The lamp is so large that even walks find its images in the glass, with noise.
    const Scene scene =
        dark_room_with_ball(clear_glass("glass", GlassType::kLeadCrystal), 0.2, 0.02F);
    const World world(scene);
    const RenderResult with = render(scene, world, 32);
    const RenderResult without = render(scene, world, 96, false);
    double var_with = 0;
    double var_without = 0;
    for (int i = 0; i < with.film.pixels(); ++i) {
        var_with += std::pow(with.film.luminance_stderr(i), 2);
        var_without += std::pow(without.film.luminance_stderr(i), 2);
    }
    // Pixels share no camera walks.
    const double se = std::sqrt(var_with + var_without);
    const double difference = frame_sum(with.film) - frame_sum(without.film);
    CAPTURE(frame_sum(with.film));
    CAPTURE(frame_sum(without.film));
    CAPTURE(std::sqrt(var_with));
    CAPTURE(std::sqrt(var_without));
    CHECK(std::abs(difference) < 3.3 * se);
    // Per pass. Measured: 350.
    CHECK(var_without * 96 > 100 * var_with * 32);
}

TEST_CASE("the places of a glint's walks have its density") {
    Glint glint;
    glint.radii = {0.01F, 0.03F};
    glint.lamp_per_px = glm::mat2(0.2F, 0.05F, -0.1F, 0.4F);
    glint.px_per_lamp = glm::inverse(glint.lamp_per_px);
    glint.centre = Vec2(10.5F, 7.25F);
    glint.c = 3;
    glint.per_c = Vec2(0.2F, -0.1F);
    glint.per_aperture = glm::mat2(0.3F, 0, 0, 0.3F);
    const GlintShift shift{3.2F, Vec2(0.4F, -0.6F)};
    // The mean of 1/q over places drawn with q is the area where q > 0: the larger disc.
    double area = 0;
    constexpr int kN = 4000;
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int i = 0; i < kN; ++i) {
        const float u = random.next();
        const float v = random.next();
        const Vec2 at = glint.sample(shift, u, v, random.next());
        REQUIRE(glint.density(at, shift) > 0);
        area += 1.0 / static_cast<double>(glint.density(at, shift)) / kN;
    }
    const double expected =
        kPi * 0.03 * 0.03 / std::abs(static_cast<double>(glm::determinant(glint.lamp_per_px)));
    // 1/q is 0.2 or 1.8 times as large as its mean, each with probability one half: 0.8/√n.
    CHECK(std::abs(area - expected) < 3.3 * 0.9 / std::sqrt(double{kN}) * expected);
}
