// Photon differentials compared with finite differences: a second walk starts in a slightly
// different direction.
#include "transport/photon_differential.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "geometry/world.h"
#include "render/prepare/setup.h"
#include "render/test_scenes.h"
#include "spectrum/wavelengths.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A ball of lead crystal in front of a wall.
Scene glass_before_wall() {
    Scene scene;
    const MaterialId grey = add_material(scene, lambertian("grey", 0.5F));
    scene.room.push_back(box_room(Vec3(1, 1, 1), grey));
    const MaterialId glass = add_material(scene, clear_glass("glass", GlassType::kLeadCrystal));
    scene.glasses.push_back(ball_at(Point(0, -0.2F, 0.3F), 0.4F, glass));
    scene.camera = camera_at(Point(0, 0, -0.9F), Point(0, 0, 1), 64, 48);
    return scene;
}

// Where a walk meets the wall.
struct Landing {
    bool reached_wall = false;
    Point position{0};
    int edges = 0;
    PhotonDifferential differential;
};

// Traces a walk from the camera's side to the wall. The walk is refracted at all glass on the way.
Landing follow(const Stage& stage, const Direction& direction, int hero, float solid_angle) {
    Walk walk;
    walk.ray = Ray{Point(0.02F, 0.01F, -0.9F), direction, 0, kInfinity};
    walk.light.hero = hero;
    Landing landing;
    landing.differential.begin(direction, solid_angle);
    RandomStream random(1, 0, 0, Purpose::kTest);
    Vertex vertex;
    while (walk.edge < 16) {
        const float length_before = walk.edge_length;
        if (!find_next_vertex(stage, walk, vertex)) return landing;
        landing.differential.arrive(
            walk.edge_length - length_before, walk.ray.direction, vertex.at.geometric);
        if (!is_delta(vertex.bsdf)) {
            landing.reached_wall = true;
            landing.position = vertex.at.position;
            landing.edges = walk.edge;
            return landing;
        }
        // The last number is near 1, which chooses refraction.
        if (scatter(stage, walk, vertex, Carrying::kFlux, Vec3(0.5F, 0.5F, 0.9999F), random) ==
            ScatterResult::kEnded) {
            return landing;
        }
        landing.differential.leave(stage, vertex, walk);
    }
    return landing;
}

}  // namespace

TEST_CASE("a differential through glass is the displacement of a neighbouring walk on the wall") {
    const Scene scene = glass_before_wall();
    const World world(scene);
    const Setup setup(scene, world);
    const Wavelengths wavelengths = make_pass_wavelengths(1, 0);
    const PassMaterials materials(setup.materials, wavelengths);
    Stage stage = setup.stage(materials, no_light_walks(setup), 1, 0);
    stage.wavelength_coordinate = WavelengthCoordinate(wavelengths);
    // Half-axes for a step of 1e-3 rad: κ Ω/π = 1e-6.
    const float step = 1e-3F;
    int tested = 0;
    for (const float x : {-0.11F, -0.06F, 0.0F, 0.04F, 0.09F}) {
        for (const float y : {-0.07F, 0.03F, 0.1F}) {
            const Direction d = glm::normalize(Vec3(x, y, 1));
            const Landing centre = follow(stage, d, 0, kPiF * step * step);
            REQUIRE(centre.reached_wall);
            REQUIRE(centre.edges == 3);
            const Frame around(d);
            for (size_t i = 0; i < 2; ++i) {
                const Direction& e = i == 0 ? around.s : around.t;
                const Landing plus = follow(stage, glm::normalize(d + step * e), 0, 1);
                const Landing minus = follow(stage, glm::normalize(d - step * e), 0, 1);
                const Vec3 moved = 0.5F * (plus.position - minus.position);
                CAPTURE(x);
                CAPTURE(y);
                // The ball is made of facets, so its normals change in steps of about a per cent.
                CHECK(glm::distance(moved, centre.differential.half_axis(i)) <
                      0.06F * glm::length(moved) + 1e-4F);
                ++tested;
            }
            // A walk with another hero shows where another wavelength lands.
            for (const int hero : {3, 6}) {
                const Landing other = follow(stage, d, hero, 1);
                const float difference =
                    stage.wavelength_coordinate[hero] - stage.wavelength_coordinate[0];
                const Vec3 predicted = difference * centre.differential.dispersion();
                const Vec3 moved = other.position - centre.position;
                // The prediction is of first order in 1/λ²; the rest is a tenth of the dispersion.
                CHECK(glm::distance(moved, predicted) < 0.15F * glm::length(moved) + 5e-5F);
            }
        }
    }
    CHECK(tested == 30);
}
