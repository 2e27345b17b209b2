#include "geometry/glassware/make_glass.h"

#include <array>
#include <cassert>
#include <cmath>
#include <functional>
#include <memory>

#include "base/kept_parts.h"
#include "geometry/glassware/make_glass_bubbles.h"
#include "geometry/glassware/make_glass_forms.h"
#include "geometry/glassware/make_glass_lathe.h"
#include "geometry/glassware/make_glass_liquid.h"
#include "geometry/glassware/make_glass_pane.h"
#include "scene/glass/glass_limits.h"

namespace dapple {

namespace {

// The columns are the object's axes in the world: R_y(turn) R_x(tilt).
glm::dmat3 object_axes(const GlassObject& object) {
    const double ct = std::cos(static_cast<double>(object.turn));
    const double st = std::sin(static_cast<double>(object.turn));
    const double cx = std::cos(static_cast<double>(object.tilt));
    const double sx = std::sin(static_cast<double>(object.tilt));
    return {glm::dvec3(ct, 0, -st),
            glm::dvec3(st * sx, cx, ct * sx),
            glm::dvec3(st * cx, -sx, ct * cx)};
}

struct Faces {
    MaterialId outer, inner;
};

// Leaves out triangles of which two corners are at the same place after rounding to floats.
Mesh place_in_world(const SolidMesh& solid, const GlassObject& object, const Faces& faces) {
    const glm::dmat3 axes = object_axes(object);
    Mesh mesh;
    mesh.name = object.name;
    mesh.positions.reserve(solid.positions.size());
    mesh.normals.reserve(solid.normals.size());
    for (const glm::dvec3& p : solid.positions) {
        mesh.positions.emplace_back(axes * p + glm::dvec3(object.position));
    }
    for (const glm::dvec3& n : solid.normals) mesh.normals.emplace_back(axes * n);
    for (size_t i = 0; i < solid.triangles.size(); ++i) {
        const glm::uvec3& t = solid.triangles[i];
        const Point& a = mesh.positions[t.x];
        const Point& b = mesh.positions[t.y];
        const Point& c = mesh.positions[t.z];
        if (a == b || b == c || c == a) continue;
        mesh.triangles.push_back(t);
        mesh.materials.push_back(i < solid.inner ? faces.outer : faces.inner);
    }
    return mesh;
}

Mesh place_in_world(const SolidMesh& solid, const GlassObject& object, MaterialId material) {
    return place_in_world(solid, object, Faces{material, material});
}

Mesh place_glass(const SolidMesh& solid, const GlassObject& object) {
    const auto or_plain = [&](MaterialId face) {
        return face == kNoMaterial ? object.material : face;
    };
    return place_in_world(
        solid, object, Faces{or_plain(object.outer_face), or_plain(object.inner_face)});
}

Mesh place_user_mesh(const Mesh& own, const GlassObject& object) {
    const glm::dmat3 axes = object_axes(object);
    Mesh mesh = own;
    mesh.name = object.name;
    for (Point& p : mesh.positions) {
        p = Point(axes * glm::dvec3(p) + glm::dvec3(object.position));
    }
    for (Normal& n : mesh.normals) n = Normal(glm::normalize(axes * glm::dvec3(n)));
    mesh.materials.assign(mesh.triangles.size(), object.material);
    return mesh;
}

// The solid in the object's own frame, which does not depend on where the object stands, on its
// glass or on what is in it.
std::shared_ptr<const SolidMesh> kept_solid(const GlassObject& o,
                                            const std::function<SolidMesh()>& make) {
    std::string key = "glass ";
    for (const float number : {o.height, o.diameter, o.wall, o.width, o.relief_depth}) {
        add_to_key(key, number);
    }
    add_to_key(key, o.relief_pitch);
    add_to_key(key, o.rib_twist);
    add_to_key(key, o.ribs);
    add_to_key(key, o.form);
    add_to_key(key, o.surface);
    add_to_key(key, o.seed);
    return kept_or_made<SolidMesh>(key, make, [](const SolidMesh& solid) {
        return (solid.positions.size() + solid.normals.size()) * sizeof(glm::dvec3) +
               solid.triangles.size() * sizeof(glm::uvec3);
    });
}

std::vector<Mesh> make_filled_vessel(const GlassObject& object) {
    const Vessel vessel = make_vessel(object);
    const size_t inner_piece = vessel.glass.size() - vessel.cavity.size();
    const auto solid = kept_solid(
        object, [&] { return make_lathe_mesh(vessel.glass, vessel.relief, inner_piece); });
    std::vector<Mesh> meshes{place_glass(*solid, object)};
    if (object.liquid == kNoMaterial) return meshes;

    const glm::dvec3 up = glm::transpose(object_axes(object)) * glm::dvec3(0, 1, 0);
    const SolidMesh liquid = make_liquid_body(vessel, object.liquid_level, up);
    if (!liquid.triangles.empty()) {
        meshes.push_back(place_in_world(liquid, object, object.liquid));
    }
    return meshes;
}

std::vector<Mesh> make_solids(const GlassObject& object, const Scene& scene) {
    const auto placed = [&](const std::function<SolidMesh()>& make) {
        return std::vector{place_glass(*kept_solid(object, make), object)};
    };
    switch (object.form) {
        case GlassForm::kMesh:
            return {
                place_user_mesh(scene.glass_meshes.at(static_cast<size_t>(object.mesh)), object)};
        case GlassForm::kPane:
            return placed([&] {
                return make_pane_mesh({object.width, object.height, object.wall},
                                      make_pane_relief(object));
            });
        case GlassForm::kBall:
            return placed([&] { return make_lathe_mesh(make_ball_outline(object.diameter), {}); });
        case GlassForm::kRod: {
            const Solid rod = make_rod(object);
            return placed([&] { return make_lathe_mesh(rod.glass, rod.relief); });
        }
        default:
            return make_filled_vessel(object);
    }
}

}  // namespace

std::vector<Mesh> make_glass(const GlassObject& object, const Scene& scene) {
    assert(glass_problem(object).empty() && "scene/ accepts only glass that can be made");
    std::vector<Mesh> meshes = make_solids(object, scene);
    if (object.bubbles > 0) {
        meshes.push_back(place_in_world(make_bubbles(object), object, object.air));
    }
    return meshes;
}

}  // namespace dapple
