// Rooms of a given size and from a model, their materials, and changes by [[surface]].
#include <cmath>

#include "scene/models/check_mesh.h"
#include "scene/models/model_units.h"
#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kRest = kCamera + kFixture;

// Two triangles, one of each material.
const std::string kTwoFaces =
    "mtllib a.mtl\nv 0 0 0\nv 1 0 0\nv 0 0 -2\nusemtl planks\nf 1 2 3\nusemtl slip way\nf 3 2 1\n";
const std::string kMtl = "newmtl planks\nKd 0.2 0.1 0.05\nnewmtl slip way\nKd 1 0.5 0.25\n";

const Material& material(const Scene& scene, const std::string& name) {
    for (const Material& m : scene.materials) {
        if (m.name == name) return m;
    }
    FAIL("no material " << name);
    return scene.materials[0];
}

Normal face_normal(const Mesh& mesh, size_t i) {
    const glm::uvec3& t = mesh.triangles[i];
    return glm::normalize(glm::cross(mesh.positions[t.y] - mesh.positions[t.x],
                                     mesh.positions[t.z] - mesh.positions[t.x]));
}

Point face_centre(const Mesh& mesh, size_t i) {
    const glm::uvec3& t = mesh.triangles[i];
    return (mesh.positions[t.x] + mesh.positions[t.y] + mesh.positions[t.z]) / 3.0F;
}

}  // namespace

TEST_CASE("a box room has six named walls that face inwards, on the floor and centred") {
    WrittenSet set;
    const Scene scene = set.build_clean("[room]\nsize_m = [4, 6, 3]\nreflectance = 0.4\n" + kRest);
    const Mesh& mesh = scene.room[0];
    REQUIRE(mesh.triangles.size() == 12);
    Bounds bounds;
    for (const Point& p : mesh.positions) bounds.add(p);
    CHECK(bounds.low == Point(-2, 0, -3));
    CHECK(bounds.high == Point(2, 3, 3));
    const std::vector<std::pair<std::string, Normal>> walls{{"floor", Normal(0, 1, 0)},
                                                            {"ceiling", Normal(0, -1, 0)},
                                                            {"wall_left", Normal(1, 0, 0)},
                                                            {"wall_right", Normal(-1, 0, 0)},
                                                            {"wall_back", Normal(0, 0, 1)},
                                                            {"wall_front", Normal(0, 0, -1)}};
    for (size_t i = 0; i < mesh.triangles.size(); ++i) {
        const auto& [name, normal] = walls[i / 2];
        const Material& wall = scene.materials[static_cast<size_t>(mesh.materials[i])];
        CHECK(wall.name == name);
        CHECK(wall.reflectance == Rgb(0.4F));
        CHECK(face_normal(mesh, i) == normal);
        // The wall faces the middle of the room.
        CHECK(glm::dot(face_centre(mesh, i) - Point(0, 1.5F, 0), normal) < 0);
    }
    // With inward normals the volume is negative.
    CHECK(signed_volume(mesh) == doctest::Approx(-4 * 6 * 3));
}

TEST_CASE("a model's unit and up axis are converted") {
    WrittenSet set;
    set.file("room.obj", kTwoFaces).file("a.mtl", kMtl);
    const std::string head = "[room]\nmodel = \"room.obj\"\n";
    const std::pair<const char*, float> units[] = {
        {"m", 1.0F}, {"cm", 0.01F}, {"mm", 0.001F}, {"ft", 0.3048F}, {"in", 0.0254F}};
    for (const auto& [unit, metres] : units) {
        CAPTURE(unit);
        const Scene scene = set.build_clean(head + "unit = \"" + unit + "\"\n" + kRest);
        CHECK(scene.room[0].positions[1].x == doctest::Approx(metres));
        CHECK(scene.room[0].positions[2].z == doctest::Approx(-2 * metres));
    }
    // With z up, the model's (0, 0, -2) is below the origin.
    const Scene z_up = set.build_clean(head + "up = \"z\"\n" + kRest);
    CHECK(z_up.room[0].positions[2] == Point(0, -2, 0));
    CHECK(z_up.room[0].positions[1] == Point(1, 0, 0));
}

TEST_CASE("turning z up to y up keeps right-handed axes") {
    const ModelAxes axes{1, true};
    const Vec3 x = axes.turned<float>({1, 0, 0});
    const Vec3 y = axes.turned<float>({0, 1, 0});
    CHECK(glm::cross(x, y) == axes.turned<float>({0, 0, 1}));
}

TEST_CASE("MTL colours become Lambertian, none above 0.98, and each triangle has its own") {
    WrittenSet set;
    set.file("room.obj", kTwoFaces).file("a.mtl", kMtl);
    const Scene scene = set.build_clean("[room]\nmodel = \"room.obj\"\n" + kRest);
    CHECK(material(scene, "planks").reflectance == Rgb(0.2F, 0.1F, 0.05F));
    CHECK(material(scene, "slip way").reflectance == Rgb(0.98F, 0.5F, 0.25F));
    CHECK(scene.materials[static_cast<size_t>(scene.room[0].materials[0])].name == "planks");
    CHECK(scene.materials[static_cast<size_t>(scene.room[0].materials[1])].name == "slip way");
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] ==
          "room.obj: colours are limited to 0 to 0.98, as no surface reflects all light: slip way");
}

TEST_CASE("each texture file is read once for each use, with sRGB for colour only") {
    WrittenSet set;
    set.file("room.obj", kTwoFaces).file("wood.png", "").file("leaf.png", "");
    set.file(
        "a.mtl",
        "newmtl planks\nKd 0 0 0\nmap_Kd wood.png\nmap_d leaf.png\nnewmtl slip way\nKd 0.5 0.5 "
        "0.5\nmap_Kd wood.png\n");
    const Scene scene = set.build_clean("[room]\nmodel = \"room.obj\"\n" + kRest);
    CHECK(set.images_read.size() == 2);
    const Material& planks = material(scene, "planks");
    const Material& slip = material(scene, "slip way");
    REQUIRE(planks.reflectance_texture >= 0);
    REQUIRE(planks.opacity_texture >= 0);
    CHECK(planks.reflectance_texture == slip.reflectance_texture);
    CHECK(scene.textures[static_cast<size_t>(planks.reflectance_texture)].srgb);
    CHECK_FALSE(scene.textures[static_cast<size_t>(planks.opacity_texture)].srgb);
    CHECK(planks.reflectance == Rgb(0.98F));  // a black Kd beside a texture is ignored
    CHECK(slip.reflectance == Rgb(0.5F));
}

TEST_CASE("surfaces override the model by material name") {
    WrittenSet set;
    set.file("room.obj", kTwoFaces).file("a.mtl", kMtl);
    const auto planks = [&](const std::string& keys) {
        return material(
            set.build_clean("[room]\nmodel = \"room.obj\"\n[[surface]]\nname = \"planks\"\n" +
                            keys + kRest),
            "planks");
    };
    CHECK(planks("reflectance = 0.3\n").reflectance == Rgb(0.3F));
    CHECK(planks("").kind == MaterialKind::kLambertian);

    const Material wet = planks("coat = 0.7\nroughness = 0.25\n");
    CHECK(wet.kind == MaterialKind::kCoated);
    CHECK(wet.coat == 0.7F);
    CHECK(wet.roughness == 0.25F);
    CHECK(wet.reflectance == Rgb(0.2F, 0.1F, 0.05F));

    const Material sheen = planks("roughness = 0.4\n");
    CHECK(sheen.kind == MaterialKind::kCoated);
    CHECK(sheen.coat == 1.0F);

    CHECK(planks("metal = true\n").kind == MaterialKind::kConductor);

    const Material cloth = planks("transmission = 0.5\nspread_deg = 30\ndirect = 0.1\n");
    CHECK(cloth.kind == MaterialKind::kSheet);
    CHECK(cloth.reflectance.x ==
          doctest::Approx(0.2 * 0.5));  // its own colour times the part that is not transmitted
    CHECK(cloth.direct == 0.1F);

    const Material pane = planks("glass = \"silica\"\nthin = true\n");
    CHECK(pane.kind == MaterialKind::kThinGlass);
    CHECK(pane.glass == GlassType::kSilica);
}

TEST_CASE("glass in a room model becomes a closed mesh of its own with normals outward") {
    WrittenSet set;
    const std::string floor = "v -2 -1 -2\nv -2 -1 2\nv 2 -1 2\nusemtl floor\nf 9 10 11\n";
    set.file("a.mtl", "newmtl block\nKd 0.5 0.5 0.5\nd 0.2\nnewmtl floor\nKd 0.5 0.5 0.5\n");
    set.file("room.obj", "mtllib a.mtl\nusemtl block\n" + cube_obj(1, 1, true) + floor);
    const Scene scene = set.build_clean(
        "[room]\nmodel = \"room.obj\"\n[[surface]]\nname = \"block\"\nglass = \"soda-lime\"\n" +
        kRest);
    REQUIRE(scene.room.size() == 2);
    CHECK(scene.room[0].triangles.size() == 1);
    CHECK(scene.room[1].name == "block");
    CHECK(signed_volume(scene.room[1]) == doctest::Approx(1));
    CHECK(material(scene, "block").opacity == 1);
}

TEST_CASE("faces without a material are mid grey") {
    WrittenSet set;
    set.file("room.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
    const Scene scene = set.build_clean("[room]\nmodel = \"room.obj\"\n" + kRest);
    CHECK(scene.materials[static_cast<size_t>(scene.room[0].materials[0])].reflectance ==
          Rgb(0.5F));
}

TEST_CASE("a room of an unlikely size gets a note about its unit") {
    WrittenSet set;
    set.file("room.obj", "v 0 0 0\nv 5000 0 0\nv 0 4000 0\nf 1 2 3\n");
    set.build_clean("[room]\nmodel = \"room.obj\"\n" + kRest);
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0].find("the room is 6403.12 m across") != std::string::npos);
    set.build_clean("[room]\nmodel = \"room.obj\"\nunit = \"mm\"\n" + kRest);
    CHECK(set.notes().empty());
}

TEST_CASE("a set without a room is in black space, with a note") {
    WrittenSet set;
    CHECK(set.build_clean(kRest).room.empty());
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] == "set.toml: room: is missing; the set is in empty black space");
}
