#include "geometry/surface_point.h"

#include <algorithm>

#include "geometry/world_parts.h"

namespace dapple {

MaterialId World::material_at(const Hit& hit) const {
    const Body& body = parts_->bodies.list[hit.body];
    if (body.one_material) return body.material;
    return parts_->bodies.facets[body.first_facet + hit.triangle].material();
}

Thing World::thing_at(const SurfacePoint& at) const {
    if (at.lamp >= 0) return {ThingKind::kLamp, at.lamp};
    const std::vector<FacetOwner>& owners = parts_->bodies.owners;
    const auto next = std::upper_bound(
        owners.begin(), owners.end(), at.facet, [](uint32_t facet, const FacetOwner& owner) {
            return facet < owner.first_facet;
        });
    return next == owners.begin() ? Thing{} : std::prev(next)->thing;
}

void World::surface_at(const Ray& ray, const Hit& hit, SurfacePoint& at) const {
    const Bodies& bodies = parts_->bodies;
    const Body& body = bodies.list[hit.body];
    at = SurfacePoint{};
    at.distance = hit.t;
    if (body.first_facet == kNoIndex) {
        at.lamp = body.lamp;
        at.position = ray.origin + hit.t * ray.direction;
        at.geometric = at.shading = glm::normalize(hit.normal);
        return;
    }
    at.facet = body.first_facet + hit.triangle;
    const Facet& facet = bodies.facets[at.facet];
    at.barycentric = Vec2(hit.u, hit.v);
    at.material = facet.material();
    if (at.facet < bodies.sheet_of_facet.size()) at.sheet = bodies.sheet_of_facet[at.facet];
    const OnFacet on(facet, hit.u, hit.v);
    at.position = three(on.position);
    at.largest_coordinate = on.largest_coordinate;
    at.geometric = three(on.geometric);
    at.shading = three(on.shading);
    if (body.first_uv != kNoIndex) {
        const Vec2* uv = &bodies.uvs[body.first_uv + 3 * size_t{hit.triangle}];
        const float w = 1.0F - hit.u - hit.v;
        at.uv = w * uv[0] + hit.u * uv[1] + hit.v * uv[2];
    }
    if (body.first_colour != kNoIndex) {
        const PackedColour* of = &bodies.colours[body.first_colour + 3 * size_t{hit.triangle}];
        const float w = 1.0F - hit.u - hit.v;
        at.vertex_colour = w * of[0].colour() + hit.u * of[1].colour() + hit.v * of[2].colour();
    }
}

FourVectors World::normal_changes(const SurfacePoint& at, const FourVectors& steps) const {
    if (at.facet == kNoIndex) return {};
    const Facet& facet = parts_->bodies.facets[at.facet];
    if (facet.is_flat()) return {};
    const Vec3 e1 = three(facet.corner(1) - facet.corner(0));
    const Vec3 e2 = three(facet.corner(2) - facet.corner(0));
    const float d11 = glm::dot(e1, e1);
    const float d12 = glm::dot(e1, e2);
    const float d22 = glm::dot(e2, e2);
    const float determinant = d11 * d22 - d12 * d12;
    if (!(determinant > 0.0F)) return {};
    // The interpolated normal is nearly of unit length within a triangle of smooth glass.
    const Four n0 = facet.normal(0).coordinates();
    const float side = glm::dot(three(n0), at.shading) < 0.0F ? -1.0F : 1.0F;
    const float scale = side / determinant;
    const Vec3 along_u = three(scale * (facet.normal(1).coordinates() - n0));
    const Vec3 along_v = three(scale * (facet.normal(2).coordinates() - n0));
    const Four s1 = dot(steps, e1);
    const Four s2 = dot(steps, e2);
    const FourVectors changes = (d22 * s1 - d12 * s2) * along_u + (d11 * s2 - d12 * s1) * along_v;
    return changes - dot(changes, at.shading) * at.shading;
}

namespace {

// The offset from a surface in m, from the largest coordinate of the computation. The position and
// the ray's next hit are computed in floats. Each has errors of a few units in the last place,
// 2^-24 of that coordinate. The offset is 32 such units: 12 µm at 6 m.
float offset_for(float largest_coordinate) {
    return 0x1p-19F * std::max(largest_coordinate, 0.05F);
}

}  // namespace

Point offset_origin(const SurfacePoint& at, const Direction& direction) {
    const float offset =
        offset_for(std::max(largest_coordinate_of(at.position), at.largest_coordinate));
    return at.position +
           (glm::dot(at.geometric, direction) >= 0.0F ? offset : -offset) * at.geometric;
}

Point World::origin_behind(const Ray& ray, const Hit& hit) const {
    const Point met = ray.origin + hit.t * ray.direction;
    const float largest = std::max({largest_coordinate_of(met),
                                    largest_coordinate_of(ray.origin),
                                    hit.t,
                                    parts_->bodies.list[hit.body].largest_coordinate});
    const float offset = offset_for(largest) / glm::length(hit.normal);
    return met + (glm::dot(hit.normal, ray.direction) >= 0.0F ? offset : -offset) * hit.normal;
}

}  // namespace dapple
