#include "set/gltf/gltf_meshes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace dapple {

namespace {

// Of the whole model; a mesh that many nodes show counts each time.
constexpr size_t kMostVertices = 30'000'000;
constexpr size_t kMostTriangles = 20'000'000;

std::array<double, 3> triple(const GltfAccessor& accessor, int64_t i) {
    return {accessor.value(i, 0), accessor.value(i, 1), accessor.value(i, 2)};
}

std::array<float, 3> in_floats(const std::array<double, 3>& v) {
    return {static_cast<float>(v[0]), static_cast<float>(v[1]), static_cast<float>(v[2])};
}

}  // namespace

void GltfMeshes::add(const GltfInstance& instance) {
    const GltfValue list = instance.mesh.in_list(root_, "meshes").member("primitives");
    for (size_t i = 0; i < list.size(); ++i) add_primitive(list.entry(i), instance.placement);
}

void GltfMeshes::add_primitive(const GltfValue& given, const GltfPlacement& placement) {
    Primitive primitive{given};
    primitive.mode = given.member("mode").whole(4);
    if (primitive.mode < 4) return;  // points and lines
    if (primitive.mode > 6) given.member("mode").fail("must be 0 to 6");
    const GltfValue material = given.member("material");
    if (material.is_there() && !model_.materials.empty()) {
        material.in_list(root_, "materials");
        primitive.material = static_cast<int32_t>(material.whole());
    }
    add_vertices(primitive, placement);
    add_normals(primitive, placement);
    add_uvs(primitive);
    add_colours(primitive);
    add_triangles(primitive);
}

// An attribute that the primitive need not have. One that does not fit the vertices is ignored.
std::optional<GltfAccessor> GltfMeshes::attribute(const Primitive& primitive,
                                                  const std::string& name,
                                                  int least,
                                                  int most) {
    const GltfValue index = primitive.given.member("attributes").member(name.c_str());
    if (!index.is_there()) return std::nullopt;
    const GltfAccessor accessor = buffers_.accessor(index);
    if (accessor.count() == primitive.vertices && accessor.components() >= least &&
        accessor.components() <= most) {
        return accessor;
    }
    report_.note(report_.place(0, 0),
                 index.key(),
                 "does not fit the mesh's vertices; ignored",
                 {"attribute", "attributes"});
    return std::nullopt;
}

void GltfMeshes::add_vertices(Primitive& primitive, const GltfPlacement& placement) {
    const GltfValue index = primitive.given.member("attributes").member("POSITION");
    const GltfAccessor positions = buffers_.accessor(index);
    if (positions.components() != 3) index.fail("must be of type VEC3");
    primitive.vertices = positions.count();
    primitive.first = static_cast<int32_t>(model_.positions.size());
    primitive.is_mirrored = placement.determinant() < 0;
    if (model_.positions.size() + static_cast<size_t>(positions.count()) > kMostVertices) {
        index.fail("has too many vertices; a model may have up to 30 million");
    }
    for (int64_t i = 0; i < positions.count(); ++i) {
        model_.positions.push_back(placement.point(triple(positions, i)));
    }
}

void GltfMeshes::add_normals(Primitive& primitive, const GltfPlacement& placement) {
    const std::optional<GltfAccessor> normals = attribute(primitive, "NORMAL", 3, 3);
    if (!normals) return;
    primitive.has_normals = true;
    primitive.first_normal = static_cast<int32_t>(model_.normals.size());
    const double side = primitive.is_mirrored ? -1 : 1;
    for (int64_t i = 0; i < normals->count(); ++i) {
        std::array<double, 3> n = placement.normal(triple(*normals, i));
        for (double& coordinate : n) coordinate *= side;
        model_.normals.push_back(in_floats(n));
    }
}

void GltfMeshes::add_uvs(Primitive& primitive) {
    const bool has_material = primitive.material >= 0;
    const GltfPicturePlace place =
        has_material ? places_[static_cast<size_t>(primitive.material)] : GltfPicturePlace();
    const std::optional<GltfAccessor> uvs =
        attribute(primitive, "TEXCOORD_" + std::to_string(place.uv_set), 2, 2);
    if (!uvs) return;
    primitive.has_uvs = true;
    primitive.first_uv = static_cast<int32_t>(model_.uvs.size());
    for (int64_t i = 0; i < uvs->count(); ++i) {
        model_.uvs.push_back(place.placed(uvs->value(i, 0), uvs->value(i, 1)));
    }
}

// COLOR_0 is linear by the standard, and multiplies the base colour.
void GltfMeshes::add_colours(const Primitive& primitive) {
    const std::optional<GltfAccessor> colours = attribute(primitive, "COLOR_0", 3, 4);
    if (!colours) {
        if (!model_.colours.empty()) model_.colours.resize(model_.positions.size(), {1, 1, 1});
        return;
    }
    model_.colours.resize(static_cast<size_t>(primitive.first), {1, 1, 1});
    for (int64_t i = 0; i < colours->count(); ++i) {
        std::array<double, 3> colour = triple(*colours, i);
        for (double& channel : colour)
            channel = std::isnan(channel) ? 1 : std::clamp(channel, 0.0, 1.0);
        model_.colours.push_back(in_floats(colour));
    }
    if (primitive.material >= 0) {
        model_.materials[static_cast<size_t>(primitive.material)].vertex_colours = true;
    }
}

void GltfMeshes::add_triangles(const Primitive& primitive) {
    const GltfValue given = primitive.given.member("indices");
    std::optional<GltfAccessor> indices;
    if (given.is_there()) indices = buffers_.accessor(given);
    if (indices && (indices->holds_floats() || indices->components() != 1)) {
        given.fail("must be of type SCALAR, whole numbers without a sign");
    }
    const int64_t count = indices ? indices->count() : primitive.vertices;
    const int64_t step = primitive.mode == 4 ? 3 : 1;
    if (model_.triangles.size() + static_cast<size_t>(count / step) > kMostTriangles) {
        primitive.given.fail("has too many triangles; a model may have up to 20 million");
    }
    const auto corner = [&](int64_t i) { return indices ? indices->whole(i) : i; };
    for (int64_t i = 0; i + 2 < count; i += step) {
        std::array<int64_t, 3> corners{
            corner(primitive.mode == 6 ? 0 : i), corner(i + 1), corner(i + 2)};
        const bool turns = primitive.mode == 5 && i % 2 == 1;
        if (turns != primitive.is_mirrored) std::swap(corners[1], corners[2]);
        add_triangle(primitive, corners);
    }
}

void GltfMeshes::add_triangle(const Primitive& primitive, std::array<int64_t, 3> corners) {
    ModelTriangle triangle;
    triangle.material = primitive.material;
    for (size_t i = 0; i < 3; ++i) {
        const int64_t index = corners[i];
        if (index < 0 || index >= primitive.vertices) {
            report_.problem(report_.place(0, 0),
                            primitive.given.member("indices").key(),
                            "a triangle uses vertex " + std::to_string(index) + "; there are " +
                                std::to_string(primitive.vertices) + ", counted from 0",
                            {"vertex", "triangles"});
            return;
        }
        const auto vertex = static_cast<int32_t>(index);
        ModelCorner& corner = triangle.corners[i];
        corner.position = primitive.first + vertex;
        if (primitive.has_normals) corner.normal = primitive.first_normal + vertex;
        if (primitive.has_uvs) corner.uv = primitive.first_uv + vertex;
    }
    const bool finite = std::all_of(
        triangle.corners.begin(), triangle.corners.end(), [&](const ModelCorner& corner) {
            const auto& p = model_.positions[static_cast<size_t>(corner.position)];
            return std::all_of(
                p.begin(), p.end(), [](double x) { return std::abs(x) < kFarthestVertex; });
        });
    if (finite) {
        model_.triangles.push_back(triangle);
    } else {
        report_.note(report_.place(0, 0),
                     primitive.given.key(),
                     "a triangle has a corner that is nowhere (nan or infinite); left out",
                     {"nowhere", "triangles"});
    }
}

}  // namespace dapple
