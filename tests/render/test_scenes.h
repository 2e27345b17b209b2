// Small scenes made in code, in named families, for tests of the whole renderer.
#pragma once

#include <string>
#include <vector>

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple::test {

inline Material lambertian(const std::string& name, float reflectance) {
    Material m;
    m.name = name;
    m.reflectance = Rgb(reflectance);
    return m;
}

inline MaterialId add_material(Scene& scene, const Material& material) {
    scene.materials.push_back(material);
    return static_cast<MaterialId>(scene.materials.size()) - 1;
}

inline void add_quad(Mesh& mesh, Point a, Point b, Point c, Point d, MaterialId material) {
    const auto first = static_cast<unsigned>(mesh.positions.size());
    for (const Point& p : {a, b, c, d}) mesh.positions.push_back(p);
    mesh.triangles.emplace_back(first, first + 1, first + 2);
    mesh.triangles.emplace_back(first, first + 2, first + 3);
    mesh.materials.insert(mesh.materials.end(), 2, material);
}

// The inside of a box from -half to +half, normals inwards, one material.
inline Mesh box_room(const Vec3& half, MaterialId material) {
    Mesh mesh;
    mesh.name = "room";
    const auto p = [&](int x, int y, int z) {
        return half * Vec3(static_cast<float>(x), static_cast<float>(y), static_cast<float>(z));
    };
    add_quad(mesh, p(-1, -1, -1), p(-1, -1, 1), p(1, -1, 1), p(1, -1, -1), material);  // floor
    add_quad(mesh, p(-1, 1, -1), p(1, 1, -1), p(1, 1, 1), p(-1, 1, 1), material);      // ceiling
    add_quad(mesh, p(-1, -1, -1), p(-1, 1, -1), p(-1, 1, 1), p(-1, -1, 1), material);  // -x
    add_quad(mesh, p(1, -1, -1), p(1, -1, 1), p(1, 1, 1), p(1, 1, -1), material);      // +x
    add_quad(mesh, p(-1, -1, -1), p(1, -1, -1), p(1, 1, -1), p(-1, 1, -1), material);  // -z
    add_quad(mesh, p(-1, -1, 1), p(-1, 1, 1), p(1, 1, 1), p(1, -1, 1), material);      // +z
    return mesh;
}

inline Camera camera_at(const Point& position, const Point& aim, int width, int height) {
    Camera camera;
    camera.position = position;
    camera.frame = looking_frame(glm::normalize(aim - position));
    camera.width = width;
    camera.height = height;
    camera.sensor = Vec2(0.036F, 0.036F * static_cast<float>(height) / static_cast<float>(width));
    camera.focal_length = 0.035F;
    return camera;
}

inline Fixture fixture_of(FixtureForm form, const Point& position, const Point& aim,
                          double lumens) {
    Fixture f;
    f.name = "lamp";
    f.form = form;
    f.source = SourceKind::kFlat;
    f.position = position;
    f.axis = glm::normalize(aim - position);
    f.beam_angle = 0.6F;
    f.field_angle = 0.9F;
    f.output_value = lumens;
    f.source_diameter = 0.02F;
    f.panel_size = Vec2(0.4F, 0.3F);
    return f;
}

inline void add_region(Scene& scene, const std::string& name, const glm::ivec4& rect) {
    Region region;
    region.name = name;
    region.has_rect = true;
    region.rect = rect;
    scene.regions.push_back(region);
}

// A box room, 4 × 3 × 5 m, with one fixture of each form; regions cover the frame in six tiles.
inline Scene room_without_glass() {
    Scene scene;
    scene.title = "room without glass";
    const MaterialId grey = add_material(scene, lambertian("grey", 0.4F));
    scene.room.push_back(box_room(Vec3(2, 1.5F, 2.5F), grey));
    scene.camera = camera_at(Point(0.3F, 0, 2.3F), Point(-0.2F, -0.2F, -2), 96, 64);
    Fixture spot = fixture_of(FixtureForm::kSpot, Point(1.5F, 1, 1), Point(-1, -1, -2), 1000);
    spot.name = "spot";
    Fixture bare = fixture_of(FixtureForm::kBare, Point(-1, 0.3F, -0.5F), Point(0, 0, 0), 300);
    bare.name = "bare";
    bare.source_diameter = 0.1F;
    Fixture panel = fixture_of(FixtureForm::kPanel, Point(0, 1.2F, 0), Point(0, -1, -0.3F), 500);
    panel.name = "panel";
    scene.fixtures = {spot, bare, panel};
    for (int j = 0; j < 2; ++j) {
        for (int i = 0; i < 3; ++i) {
            add_region(scene,
                       "tile " + std::to_string(3 * j + i),
                       glm::ivec4(32 * i, 32 * j, 32 * (i + 1), 32 * (j + 1)));
        }
    }
    return scene;
}

}  // namespace dapple::test
