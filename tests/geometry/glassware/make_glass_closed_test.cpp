// Made glass is a solid: closed, facing outwards, of the given size.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "base/random.h"
#include "geometry/glassware/glass_samples.h"
#include "scene/glass/glass_limits.h"
#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

void check_solid(const Mesh& mesh) {
    const EdgeReport edges = check_edges(mesh);
    CHECK(edges.open == 0);
    CHECK(edges.twisted == 0);
    CHECK(signed_volume(mesh) > 0);
}

// Random, over the whole range of proportions that glass_limits.h allows.
GlassObject random_vessel(RandomStream& random) {
    GlassObject glass;
    const GlassForm forms[] = {GlassForm::kJar,
                               GlassForm::kBottle,
                               GlassForm::kTumbler,
                               GlassForm::kDemijohn,
                               GlassForm::kCarafe};
    do {
        glass.form = forms[static_cast<int>(5 * random.next())];
        glass.diameter = 0.12F;
        glass.height = 0.12F * std::exp2(6 * random.next() - 3);
        glass.wall = 0.024F * random.next();
        const bool plain = random.next() < 0.5F;
        glass.surface = plain ? GlassSurface::kPlain
                              : static_cast<GlassSurface>(1 + static_cast<int>(4 * random.next()));
        glass.ribs = static_cast<int>(40 * random.next());
        glass.rib_twist = 3 * random.next() - 1.5F;
        glass.relief_pitch = 0.1F * random.next();
        glass.relief_depth = plain ? 0.0F : 0.01F * random.next();
        glass.tilt = random.next() - 0.5F;
        glass.liquid = random.next() < 0.7F ? kSampleLiquid : kNoMaterial;
        glass.liquid_level = random.next();
    } while (!glass_problem(glass).empty());
    return glass;
}

}  // namespace

TEST_CASE("made glass and its liquid are closed and face outwards wherever they stand" *
          doctest::test_suite("figures")) {
    for (GlassObject glass : made_glasses()) {
        if (is_vessel(glass.form)) glass = with_liquid(glass, 0.6F);
        for (const GlassObject& placed : {glass, somewhere(glass)}) {
            CAPTURE(describe(placed));
            const std::vector<Mesh> meshes = make_glass(placed, Scene{});
            const size_t bubbles = glass.bubbles > 0 ? 1 : 0;
            REQUIRE(meshes.size() == (is_vessel(glass.form) ? 2 : 1) + bubbles);
            for (const Mesh& mesh : meshes) check_solid(mesh);
        }
    }
}

TEST_CASE("every triangle has the material of its solid") {
    for (const GlassObject& glass : vessels()) {
        const std::vector<Mesh> meshes = make_glass(with_liquid(glass, 0.5F), Scene{});
        const MaterialId expected[] = {kSampleGlass, kSampleLiquid};
        for (size_t i = 0; i < 2; ++i) {
            REQUIRE(meshes[i].materials.size() == meshes[i].triangles.size());
            const std::set<MaterialId> found(meshes[i].materials.begin(),
                                             meshes[i].materials.end());
            CHECK(found == std::set<MaterialId>{expected[i]});
        }
    }
}

TEST_CASE("outside height and diameter are those of the set, over the crests of the ribs" *
          doctest::test_suite("figures")) {
    for (const GlassObject& glass : made_glasses()) {
        CAPTURE(describe(glass));
        const Bounds box = bounds_of(glass_mesh(glass));
        CHECK(box.low.y == doctest::Approx(0).epsilon(1e-9));
        // Exact but for the rounding of sums of arcs in doubles and to floats.
        CHECK(box.high.y == doctest::Approx(glass.height).epsilon(1e-6));
        if (glass.form == GlassForm::kPane) {
            CHECK(box.high.x - box.low.x == glass.width);
            CHECK(box.high.z - box.low.z == glass.wall);
            continue;
        }
        float widest = 0;
        for (const Point& p : glass_mesh(glass).positions) {
            widest = std::max(widest, std::hypot(p.x, p.z));
        }
        CHECK(2 * widest == doctest::Approx(glass.diameter).epsilon(1e-6));
        CHECK(box.high.x == doctest::Approx(0.5F * glass.diameter).epsilon(1e-6));
    }
}

TEST_CASE("a ribbed jar keeps under 250 000 triangles") {
    const GlassObject jar =
        with_ribs(sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F), 24, 0.0015F);
    CHECK(glass_mesh(jar).triangles.size() < 250000);
    // The finest mesh of any ribs: 24 segments for each of 256, twice 56 rows of fades.
    CHECK(glass_mesh(with_ribs(jar, 256, 0.005F)).triangles.size() < 1500000);
}

TEST_CASE("placement: tilted about its own x, turned about y, then moved") {
    GlassObject ball = sample_glass(GlassForm::kBall, 0.1F, 0.1F, 0.003F);
    ball.tilt = static_cast<float>(kPi / 2);  // up becomes +z
    ball.turn = static_cast<float>(kPi / 2);  // +z becomes +x
    ball.position = Point(1, 2, 3);
    const Point centre = bounds_of(glass_mesh(ball)).centre();
    CHECK(glm::length(centre - Point(1.05F, 2, 3)) < 1e-6F);  // rounding of floats near 3
}

TEST_CASE("a user's mesh is placed, keeps its shape and takes the object's material") {
    Scene scene;
    Mesh tetrahedron;
    tetrahedron.positions = {Point(0, 0, 0), Point(1, 0, 0), Point(0, 1, 0), Point(0, 0, 1)};
    tetrahedron.triangles = {{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}};
    tetrahedron.materials = {7, 7, 7, 7};
    scene.glass_meshes = {tetrahedron};
    GlassObject glass = somewhere(sample_glass(GlassForm::kMesh, 0, 0, 0));
    glass.mesh = 0;
    const Mesh placed = make_glass(glass, scene).front();
    check_solid(placed);
    CHECK(signed_volume(placed) == doctest::Approx(1.0 / 6).epsilon(1e-6));  // float rounding
    CHECK(placed.positions[0] == glass.position);
    CHECK(placed.materials == std::vector<MaterialId>(4, kSampleGlass));
}

TEST_CASE("glass of any scale is closed and holds the same volume in its own measure" *
          doctest::test_suite("slow")) {
    for (const GlassObject& glass : made_glasses()) {
        CAPTURE(describe(glass));
        const double volume = signed_volume(glass_mesh(glass));
        for (const float scale : {0.02F, 30.0F}) {
            CAPTURE(scale);
            GlassObject scaled = glass;
            for (float* length : {&scaled.height,
                                  &scaled.diameter,
                                  &scaled.wall,
                                  &scaled.width,
                                  &scaled.relief_depth,
                                  &scaled.relief_pitch,
                                  &scaled.bubble_diameter}) {
                *length *= scale;
            }
            const Mesh mesh = glass_mesh(scaled);
            check_solid(mesh);
            // Chords do not scale with the glass. With at least 96 segments around, they leave out
            // at most (2π/96)²/6 = 0.7e-3 of the volume.
            CHECK(signed_volume(mesh) / std::pow(scale, 3) ==
                  doctest::Approx(volume).epsilon(1.5e-3));
        }
    }
}

TEST_CASE("every glass within the limits is made of closed solids" * doctest::test_suite("slow")) {
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int i = 0; i < 25; ++i) {
        const GlassObject glass = random_vessel(random);
        CAPTURE(describe(glass));
        CAPTURE(glass.liquid_level);
        for (const Mesh& mesh : make_glass(glass, Scene{})) check_solid(mesh);
    }
}

}  // namespace dapple
