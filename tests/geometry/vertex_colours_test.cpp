// Colours of vertices are interpolated over their triangle.
#include <doctest/doctest.h>

#include "geometry/packed_colour.h"
#include "geometry/world.h"

using namespace dapple;

TEST_CASE("a packed colour is known to half a step of its square root") {
    for (int i = 0; i <= 1000; ++i) {
        const float x = static_cast<float>(i) / 1000.0F;
        const float step = 2.0F * std::sqrt(x) * 0.5F / 1023.0F + 1e-6F;
        CHECK(std::abs(PackedColour(Rgb(x, 1, 0)).colour().x - x) <= step);
    }
    CHECK(PackedColour(Rgb(0, 0.5F, 1)).colour().z == 1.0F);
    CHECK(PackedColour(Rgb(0, 0.5F, 1)).colour().x == 0.0F);
}

TEST_CASE("a hit has the colour of its corners, by their weights; other meshes are white") {
    Scene scene;
    scene.materials.emplace_back();
    Mesh mesh;
    mesh.positions = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}};
    mesh.colours = {Rgb(1, 0, 0), Rgb(0, 1, 0), Rgb(0, 0, 0.25F)};
    mesh.triangles = {glm::uvec3(0, 1, 2)};
    mesh.materials = {0};
    scene.room.push_back(mesh);
    for (Point& p : mesh.positions) p.z = -1;
    mesh.colours.clear();
    scene.room.push_back(mesh);
    const World world(scene);
    const auto colour_at = [&](float z, float towards) {
        const Ray ray{Point(0.25F, 0.5F, z), Direction(0, 0, towards)};
        Hit hit;
        REQUIRE(world.closest(ray, hit));
        return world.surface_at(ray, hit).vertex_colour;
    };
    // Weights 0.25, 0.25 and 0.5; each channel has 10 bits.
    CHECK(glm::distance(colour_at(1, -1), Rgb(0.25F, 0.25F, 0.125F)) < 1e-3F);
    CHECK(colour_at(-2, 1) == Rgb(1));
}
