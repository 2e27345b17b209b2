// Small scenes made in code, for tests of the whole renderer.
#pragma once

#include <array>
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

// The inside of a box from -half to +half, with normals inwards. The materials are those of the
// floor, of the ceiling and of the walls at -x, +x, -z and +z.
inline Mesh box_room(const Vec3& half, const std::array<MaterialId, 6>& materials) {
    Mesh mesh;
    mesh.name = "room";
    const auto p = [&](int x, int y, int z) {
        return half * Vec3(static_cast<float>(x), static_cast<float>(y), static_cast<float>(z));
    };
    add_quad(mesh, p(-1, -1, -1), p(-1, -1, 1), p(1, -1, 1), p(1, -1, -1), materials[0]);
    add_quad(mesh, p(-1, 1, -1), p(1, 1, -1), p(1, 1, 1), p(-1, 1, 1), materials[1]);
    add_quad(mesh, p(-1, -1, -1), p(-1, 1, -1), p(-1, 1, 1), p(-1, -1, 1), materials[2]);
    add_quad(mesh, p(1, -1, -1), p(1, -1, 1), p(1, 1, 1), p(1, 1, -1), materials[3]);
    add_quad(mesh, p(-1, -1, -1), p(1, -1, -1), p(1, 1, -1), p(-1, 1, -1), materials[4]);
    add_quad(mesh, p(-1, -1, 1), p(-1, 1, 1), p(1, 1, 1), p(1, -1, 1), materials[5]);
    return mesh;
}

inline Mesh box_room(const Vec3& half, MaterialId material) {
    return box_room(half, {material, material, material, material, material, material});
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

inline Fixture fixture_of(FixtureForm form,
                          const Point& position,
                          const Point& aim,
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

// Adds regions that cover the frame in 3 × 2 tiles.
inline void add_tiles(Scene& scene) {
    const int w = scene.camera.width / 3;
    const int h = scene.camera.height / 2;
    for (int j = 0; j < 2; ++j) {
        for (int i = 0; i < 3; ++i) {
            add_region(scene,
                       "tile " + std::to_string(3 * j + i),
                       glm::ivec4(w * i, h * j, w * (i + 1), h * (j + 1)));
        }
    }
}

// A box room, 4 × 3 × 5 m, with one fixture of each form and with six tiles as regions.
inline Scene room_without_glass() {
    Scene scene;
    scene.title = "room without glass";
    const MaterialId grey = add_material(scene, lambertian("grey", 0.4F));
    scene.room.push_back(box_room(Vec3(2, 1.5F, 2.5F), grey));
    scene.camera = camera_at(Point(0.3F, 0, 2.3F), Point(-0.2F, -0.2F, -2), 96, 64);
    Fixture spot = fixture_of(FixtureForm::kSpot, Point(1.5F, 1, 1), Point(-1, -1, -2), 1000);
    spot.name = "spot";
    Fixture bare = fixture_of(FixtureForm::kBare, Point(-1, 0.3F, 2.4F), Point(0, 0, 0), 300);
    bare.name = "bare";
    bare.source_diameter = 0.1F;
    Fixture panel = fixture_of(FixtureForm::kPanel, Point(0, 1.2F, 0), Point(0, -1, -0.3F), 500);
    panel.name = "panel";
    scene.fixtures = {spot, bare, panel};
    add_tiles(scene);
    return scene;
}

inline Material clear_glass(const std::string& name, GlassType glass) {
    Material m;
    m.name = name;
    m.kind = MaterialKind::kGlass;
    m.glass = glass;
    m.priority = 10;
    return m;
}

inline Material sheet(const std::string& name,
                      float reflectance,
                      float transmission,
                      float direct) {
    Material m;
    m.name = name;
    m.kind = MaterialKind::kSheet;
    m.reflectance = Rgb(reflectance);
    m.transmission = transmission;
    m.direct = direct;
    m.spread = 0.7F;
    return m;
}

inline GlassObject ball_at(const Point& base, float diameter, MaterialId material) {
    GlassObject g;
    g.name = "ball";
    g.form = GlassForm::kBall;
    g.position = base;
    g.height = g.diameter = diameter;
    g.material = material;
    return g;
}

// A closed box of six Lambertian panels. Inside it the luminance is `luminance` in every direction.
inline Scene furnace(float luminance) {
    Scene scene;
    scene.title = "furnace";
    scene.camera = camera_at(Point(0.1F, 0.05F, 0.9F), Point(0, 0, 0), 4, 3);
    for (int axis = 0; axis < 3; ++axis) {
        for (const float side : {-1.0F, 1.0F}) {
            Point p(0);
            p[axis] = side;
            Fixture f = fixture_of(FixtureForm::kPanel, p, Point(0), 0);
            f.name = "panel " + std::to_string(scene.fixtures.size());
            f.panel_size = Vec2(2, 2);
            f.output_value = luminance * kPi * 4.0;  // Φ = π L A
            scene.fixtures.push_back(f);
        }
    }
    return scene;
}

// Glass, rough glass, water in glass, a window pane, cloth, varnish and metal. The lamps are large
// enough that camera walks find them through the glass.
inline Scene room_with_everything() {
    Scene scene = room_without_glass();
    scene.title = "room with everything";
    scene.camera = camera_at(Point(0.3F, 0, 2.3F), Point(-0.2F, -0.2F, -2), 48, 32);
    scene.regions.clear();
    scene.fixtures.clear();
    Fixture bare = fixture_of(FixtureForm::kBare, Point(-0.9F, 0.4F, -1), Point(0), 400);
    bare.name = "bare";
    bare.source_diameter = 0.5F;
    Fixture spot =
        fixture_of(FixtureForm::kSpot, Point(1.2F, 1.1F, -0.4F), Point(-0.3F, -1, -1), 500);
    spot.name = "spot";
    spot.source_diameter = 0.5F;
    spot.beam_angle = 1.0F;
    spot.field_angle = 1.4F;
    scene.fixtures = {bare, spot};

    const MaterialId glass = add_material(scene, clear_glass("glass", GlassType::kSodaLime));
    Material ground = clear_glass("ground glass", GlassType::kBorosilicate);
    ground.roughness = 0.4F;
    const MaterialId rough = add_material(scene, ground);
    Material water = clear_glass("water", GlassType::kWater);
    water.priority = 5;
    const MaterialId liquid = add_material(scene, water);
    const MaterialId cloth = add_material(scene, sheet("cloth", 0.4F, 0.5F, 0.2F));
    Material pane;
    pane.name = "pane";
    pane.kind = MaterialKind::kThinGlass;
    const MaterialId window = add_material(scene, pane);
    Material varnish = lambertian("varnish", 0.3F);
    varnish.kind = MaterialKind::kCoated;
    varnish.coat = 1;
    varnish.roughness = 0.5F;
    const MaterialId coated = add_material(scene, varnish);
    Material metal = lambertian("metal", 0.8F);
    metal.kind = MaterialKind::kConductor;
    metal.roughness = 0.5F;
    const MaterialId conductor = add_material(scene, metal);

    scene.glasses.push_back(ball_at(Point(-0.3F, -1.2F, -0.5F), 0.6F, glass));
    scene.glasses.push_back(ball_at(Point(0.6F, -1.2F, -0.8F), 0.5F, rough));
    GlassObject tumbler;
    tumbler.name = "tumbler";
    tumbler.form = GlassForm::kTumbler;
    tumbler.position = Point(0.15F, -1.3F, 0.2F);
    tumbler.height = 0.5F;
    tumbler.diameter = 0.4F;
    tumbler.wall = 0.02F;
    tumbler.material = glass;
    tumbler.liquid = liquid;
    tumbler.liquid_level = 0.7F;
    scene.glasses.push_back(tumbler);
    const auto board = [&](const Point& centre, const Point& aim, const Vec2& size, MaterialId id) {
        Board b;
        b.centre = centre;
        b.facing = glm::normalize(aim - centre);
        b.size = size;
        b.material = id;
        scene.boards.push_back(b);
    };
    board(Point(0.7F, 0.4F, -0.7F), Point(1.2F, 1.1F, -0.4F), Vec2(0.6F), cloth);
    board(Point(-0.6F, -0.2F, -0.2F), Point(-0.9F, 0.4F, -1), Vec2(0.5F), window);
    board(Point(0, -1.45F, 0), Point(0, 0, 0), Vec2(3, 4), coated);
    board(Point(-1.7F, 0, -1), Point(0, -0.5F, 0), Vec2(1), conductor);
    add_tiles(scene);
    return scene;
}

}  // namespace dapple::test
