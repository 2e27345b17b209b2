// An independent reader, tinyobjloader, reads the same points, faces, groups, areas and materials.
#include <doctest/doctest.h>
#include <tiny_obj_loader.h>

#include <filesystem>
#include <map>

#include "obj_helpers.h"

using namespace dapple;

namespace {

const std::string kInstalledModels = "/usr/share/doc/embree3/models";

struct Totals {
    size_t triangles = 0;
    std::map<std::string, double> area;     // by material
    std::map<uint32_t, double> group_area;  // by smoothing group
};

// Area of a polygon by the shoelace formula, on the witness's own points.
double polygon_area(const tinyobj::attrib_t& attrib,
                    const tinyobj::index_t* corners,
                    size_t count) {
    const auto point = [&](size_t i) {
        const auto* p = &attrib.vertices[3 * static_cast<size_t>(corners[i].vertex_index)];
        return Vec3{p[0], p[1], p[2]};
    };
    Vec3 sum{};
    for (size_t i = 1; i + 1 < count; ++i) {
        const Vec3 part = area_vector(point(0), point(i), point(i + 1));
        for (size_t k = 0; k < 3; ++k) sum[k] += part[k];
    }
    return length(sum);
}

Totals totals_of(const tinyobj::ObjReader& witness) {
    Totals totals;
    for (const tinyobj::shape_t& shape : witness.GetShapes()) {
        size_t first = 0;
        for (size_t face = 0; face < shape.mesh.num_face_vertices.size(); ++face) {
            const size_t count = shape.mesh.num_face_vertices[face];
            const double area =
                polygon_area(witness.GetAttrib(), &shape.mesh.indices[first], count);
            const int material = shape.mesh.material_ids[face];
            totals.triangles += count - 2;
            totals
                .area[material < 0 ? ""
                                   : witness.GetMaterials()[static_cast<size_t>(material)].name] +=
                area;
            totals.group_area[shape.mesh.smoothing_group_ids[face]] += area;
            first += count;
        }
    }
    return totals;
}

Totals totals_of(const ModelDescription& model) {
    Totals totals;
    for (const ModelTriangle& triangle : model.triangles) {
        const double area = area_of(model, triangle);
        ++totals.triangles;
        totals.area[triangle.material < 0
                        ? ""
                        : model.materials[static_cast<size_t>(triangle.material)].name] += area;
        totals.group_area[triangle.smoothing_group] += area;
    }
    return totals;
}

template <class Key>
void check_same(const std::map<Key, double>& ours, const std::map<Key, double>& theirs) {
    REQUIRE(ours.size() == theirs.size());
    for (const auto& [key, area] : theirs) {
        CAPTURE(key);
        REQUIRE(ours.count(key) == 1);
        // Measured quads are not quite flat: two triangles are about 1e-5 larger than the shoelace
        // area, which is the area of their projection.
        CHECK(ours.at(key) == doctest::Approx(area).epsilon(5e-5));
    }
}

// The witness reads decimal numbers with its own arithmetic, which is off by some last digits.
bool about_equal(double ours, float theirs) {
    return std::abs(ours - double{theirs}) <= 4e-7 * std::max(1.0, std::abs(ours));
}

template <class Number, size_t N>
void check_same_points(const std::vector<std::array<Number, N>>& ours,
                       const std::vector<tinyobj::real_t>& theirs) {
    REQUIRE(ours.size() * N == theirs.size());
    bool same = true;
    for (size_t i = 0; i < theirs.size(); ++i)
        same = same && about_equal(ours[i / N][i % N], theirs[i]);
    CHECK(same);
}

// The witness ends material names in `usemtl` at the first blank, so it finds no such material.
bool has_blank_names(const ModelDescription& model) {
    return std::any_of(model.materials.begin(), model.materials.end(), [](const auto& material) {
        return material.name.find(' ') != std::string::npos;
    });
}

void compare(const std::string& path) {
    CAPTURE(path);
    Problems problems;
    const ModelDescription model = read_obj(path, problems);
    CHECK(problems.empty());
    tinyobj::ObjReaderConfig config;
    config.triangulate = false;
    tinyobj::ObjReader witness;
    REQUIRE(witness.ParseFromFile(path, config));
    check_same_points(model.positions, witness.GetAttrib().vertices);
    check_same_points(model.uvs, witness.GetAttrib().texcoords);
    check_same_points(model.normals, witness.GetAttrib().normals);
    const Totals ours = totals_of(model);
    const Totals theirs = totals_of(witness);
    CHECK(ours.triangles == theirs.triangles);
    if (!has_blank_names(model)) check_same(ours.area, theirs.area);
    check_same(ours.group_area, theirs.group_area);

    for (const tinyobj::material_t& material : witness.GetMaterials()) {
        CAPTURE(material.name);
        const auto found = std::find_if(model.materials.begin(),
                                        model.materials.end(),
                                        [&](auto& m) { return m.name == material.name; });
        REQUIRE(found != model.materials.end());
        for (size_t k = 0; k < 3; ++k) CHECK(about_equal(found->diffuse[k], material.diffuse[k]));
        CHECK(about_equal(found->opacity, material.dissolve));
        CHECK(found->diffuse_map.empty() == material.diffuse_texname.empty());
        CHECK(found->opacity_map.empty() == material.alpha_texname.empty());
    }
}

}  // namespace

TEST_CASE("an independent reader reads the same from the test models") {
    compare(kModels + "box_windows.obj");
    compare(kModels + "letters.obj");
}

TEST_CASE("an independent reader reads the same from the OBJ models of Debian's embree-tools") {
    if (!std::filesystem::is_directory(kInstalledModels)) {
        MESSAGE("skipped: " << kInstalledModels << " is not there");
        return;
    }
    for (const auto& entry : std::filesystem::recursive_directory_iterator(kInstalledModels)) {
        if (entry.path().extension() == ".obj") compare(entry.path().string());
    }
}
