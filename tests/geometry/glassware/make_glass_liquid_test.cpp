// The liquid in a vessel: level, volume, and how it meets the glass.
#include "geometry/glassware/make_glass_liquid.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "geometry/glassware/glass_samples.h"
#include "geometry/glassware/make_glass_forms.h"
#include "geometry/glassware/outline_measure.h"
#include "scene/glass/glass_limits.h"
#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

Mesh liquid_mesh(const GlassObject& glass) {
    const std::vector<Mesh> meshes = make_glass(glass, Scene{});
    REQUIRE(meshes.size() >= 2);
    return meshes[1];
}

float highest(const Mesh& mesh) {
    return bounds_of(mesh).high.y;
}

// π ∫ r² dy of a body's outline from the axis at its bottom up to a height.
double volume_up_to(const Outline& body, double top) {
    constexpr int kSteps = 4000;
    double volume = 0;
    for (const OutlinePiece& piece : body) {
        for (int i = 0; i < kSteps; ++i) {
            const double s = (i + 0.5) / kSteps * piece.length;
            const glm::dvec2 p = position_at(piece, s);
            const double dy = std::sin(heading_at(piece, s)) * piece.length / kSteps;
            if (p.y < top) volume += kPi * (p.x * p.x) * dy;
        }
    }
    return volume;
}

}  // namespace

TEST_CASE(
    "an upright vessel is filled to its level, with the volume inside the middle of its wall") {
    for (const GlassObject& empty : vessels()) {
        const GlassObject glass = with_liquid(empty, 0.6F);
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        const double level = vessel.inner_bottom + 0.6 * (vessel.inner_top - vessel.inner_bottom);
        const Mesh liquid = liquid_mesh(glass);
        CHECK(highest(liquid) == doctest::Approx(level).epsilon(1e-5));  // 0.1 µm steps
        const Outline body = reversed_outline(offset_outline(vessel.cavity, -0.5 * vessel.wall));
        // Chords, as for the glass: (2π/n)²/6.
        CHECK(signed_volume(liquid) == doctest::Approx(volume_up_to(body, level)).epsilon(1e-3));
    }
}

TEST_CASE("the liquid's side and bottom lie half a wall inside the glass") {
    for (const GlassObject& empty : vessels()) {
        const GlassObject glass = with_liquid(empty, 0.4F);
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        const Mesh liquid = liquid_mesh(glass);
        const float top = highest(liquid);
        double nearest = kInfinity;
        double farthest = 0;
        for (const Point& p : liquid.positions) {
            if (p.y > top - 1e-6F) continue;
            const OutlineFoot foot = nearest_on(vessel.cavity, {std::hypot(p.x, p.z), p.y});
            nearest = std::min(nearest, foot.distance);
            farthest = std::max(farthest, foot.distance);
        }
        CHECK(nearest == doctest::Approx(0.5 * glass.wall).epsilon(1e-3));  // float rounding
        CHECK(farthest == doctest::Approx(0.5 * glass.wall).epsilon(1e-3));
    }
}

TEST_CASE("the top is level in the world with a crisp edge, however the vessel is tilted" *
          doctest::test_suite("slow")) {
    for (const GlassObject& empty : vessels()) {
        if (empty.surface != GlassSurface::kPlain) continue;  // the inside is plain anyway
        for (const float tilt : {0.0F, 0.15F, -0.5F, 1.0F}) {
            // Low in a bottle the punt stands out of the liquid; high up in a tilted one the level
            // runs through shoulder and neck: rings and several patches.
            for (const float level : {0.05F, 0.3F, 0.75F, 1.0F}) {
                GlassObject glass = with_liquid(plain(empty), level);
                glass.tilt = tilt;
                glass.turn = 0.4F;
                REQUIRE(glass_problem(glass) == "");
                CAPTURE(describe(glass));
                CAPTURE(level);
                const std::vector<Mesh> meshes = make_glass(glass, Scene{});
                if (meshes.size() < 2) {
                    CHECK(tilt == 1.0F);  // all of it has run out
                    continue;
                }
                const Mesh& liquid = meshes[1];
                CHECK(check_edges(liquid).open + check_edges(liquid).twisted == 0);
                const float top = highest(liquid);
                int lid_triangles = 0;
                int lid_wrong = 0;
                double lid_area = 0;
                for (const glm::uvec3& t : liquid.triangles) {
                    const MeshTriangle facet(liquid, t);
                    if (facet.corner[0].y < top - 2e-6 || facet.corner[1].y < top - 2e-6 ||
                        facet.corner[2].y < top - 2e-6) {
                        continue;
                    }
                    if (facet.normal[0].y < 1 - 1e-6) continue;  // a sliver of the side
                    ++lid_triangles;
                    lid_area += 0.5 * facet.cross().y;
                    if (facet.cross().y < -1e-10) ++lid_wrong;  // m², rounding of slivers
                }
                CHECK(lid_triangles > 90);
                CHECK(lid_wrong == 0);  // nowhere folded over
                CHECK(lid_area > 0);
            }
        }
    }
}

TEST_CASE("tilting a straight jar about its axis keeps what is in it") {
    GlassObject glass = with_liquid(sample_glass(GlassForm::kJar, 0.26F, 0.12F, 0.003F), 0.5F);
    const double upright = signed_volume(liquid_mesh(glass));
    glass.tilt = 0.5F;
    // The plane turns about the axis between straight walls: one side gains what the other loses,
    // but for the chords.
    CHECK(signed_volume(liquid_mesh(glass)) == doctest::Approx(upright).epsilon(1e-4));
}

TEST_CASE("a brimful vessel that is tilted spills down to its rim") {
    GlassObject glass = with_liquid(sample_glass(GlassForm::kTumbler, 0.09F, 0.075F, 0.002F), 1);
    const double upright = signed_volume(liquid_mesh(glass));
    glass.tilt = 0.5F;
    const std::vector<Mesh> meshes = make_glass(glass, Scene{});
    CHECK(signed_volume(meshes[1]) < 0.9 * upright);
    // The lowest point of the crest of the tilted rim.
    const double crest = 0.09 * std::cos(0.5) - (0.0375 - 0.001) * std::sin(0.5);
    CHECK(highest(meshes[1]) < crest);
    CHECK(highest(meshes[1]) > crest - 0.003);
}

TEST_CASE("an empty vessel has no liquid") {
    CHECK(make_glass(vessels().front(), Scene{}).size() == 1);
}

TEST_CASE("a cube cut level keeps its lower part, closed by a lid") {
    SolidMesh cube;
    for (int i = 0; i < 8; ++i) {
        cube.positions.emplace_back(i & 1, (i >> 1) & 1, (i >> 2) & 1);
        cube.normals.push_back(glm::normalize(cube.positions.back() - 0.5));
    }
    cube.triangles = {{0, 4, 6},
                      {0, 6, 2},
                      {1, 3, 7},
                      {1, 7, 5},
                      {0, 1, 5},
                      {0, 5, 4},
                      {2, 6, 7},
                      {2, 7, 3},
                      {0, 2, 3},
                      {0, 3, 1},
                      {4, 5, 7},
                      {4, 7, 6}};
    const auto volume_of = [](const SolidMesh& solid) {
        Mesh mesh;
        for (const glm::dvec3& p : solid.positions) mesh.positions.emplace_back(p);
        mesh.triangles = solid.triangles;
        CHECK(check_edges(mesh).open + check_edges(mesh).twisted == 0);
        return signed_volume(mesh);
    };
    CHECK(volume_of(cube) == doctest::Approx(1));
    CHECK(volume_of(cut_level(cube, {0, 1, 0}, 0.3)) == doctest::Approx(0.3));
    // A plane across a corner leaves the cube without a pyramid: 1 - (3 - 2.4)³/6.
    const glm::dvec3 diagonal = glm::normalize(glm::dvec3(1));
    CHECK(volume_of(cut_level(cube, diagonal, 2.4 / std::sqrt(3.0))) == doctest::Approx(1 - 0.036));
    CHECK(cut_level(cube, {0, 1, 0}, -1).triangles.empty());
    CHECK(volume_of(cut_level(cube, {0, 1, 0}, 2)) == doctest::Approx(1));
}

}  // namespace dapple
