#include "geometry/world.h"

#include "geometry/world_parts.h"

namespace dapple {

World::World(const Scene& scene, WorldUse use) : parts_(std::make_unique<Parts>(scene, use)) {}
World::~World() = default;
World::World(World&&) noexcept = default;
World& World::operator=(World&&) noexcept = default;

int World::change_to(const Scene& scene) {
    parts_->kernels.begin_again();
    parts_->bodies = gather_bodies(scene, parts_->kernels, std::move(parts_->bodies));
    parts_->kernels.commit();
    return parts_->kernels.rebuilt();
}

void World::record(RayLog* log) {
    parts_->log = log;
}

namespace {

void append(RayLog& log, const Ray& ray, bool is_shadow) {
    log.rays.push_back(ray);
    log.is_shadow.push_back(is_shadow);
}

}  // namespace

bool World::closest(const Ray& ray, Hit& hit) const {
    if (parts_->log) append(*parts_->log, ray, false);
    if (!parts_->kernels.closest(ray, hit)) return false;
    // Most callers need the hit's triangle next.
    const uint32_t first = parts_->bodies.list[hit.body].first_facet;
    if (first != kNoIndex) prefetch_to_read(&parts_->bodies.facets[first + hit.triangle]);
    return true;
}

bool World::closest_see_through(const Ray& ray, Hit& hit) const {
    return parts_->kernels.closest_see_through(ray, hit);
}

bool World::blocked(const Ray& ray) const {
    if (parts_->log) append(*parts_->log, ray, true);
    return parts_->kernels.blocked(ray);
}

const Bounds& World::bounds() const {
    return parts_->bodies.bounds;
}
const std::vector<Bounds>& World::broken_beam_bounds() const {
    return parts_->bodies.broken_beam_bounds;
}
const std::vector<Bounds>& World::diffuser_bounds() const {
    return parts_->bodies.diffuser_bounds;
}
int64_t World::triangles() const {
    return static_cast<int64_t>(parts_->bodies.facets.size());
}

std::vector<Point> World::corners_of(const Thing& thing) const {
    const Bodies& bodies = parts_->bodies;
    std::vector<Point> corners;
    const auto add = [&](size_t first, size_t last) {
        corners.reserve(corners.size() + 3 * (last - first));
        for (size_t f = first; f < last; ++f) {
            for (size_t c = 0; c < 3; ++c) corners.push_back(three(bodies.facets[f].corner(c)));
        }
    };
    const std::vector<FacetOwner>& owners = bodies.owners;
    const size_t all = bodies.facets.size();
    if (thing.kind == ThingKind::kRoom) add(0, owners.empty() ? all : owners[0].first_facet);
    for (size_t i = 0; i < owners.size(); ++i) {
        if (owners[i].thing != thing) continue;
        add(owners[i].first_facet, i + 1 < owners.size() ? owners[i + 1].first_facet : all);
    }
    return corners;
}

const std::vector<Bounds>& World::changed_bounds() const {
    return parts_->bodies.changed_bounds;
}

const std::vector<SheetTriangle>& World::sheets() const {
    return parts_->bodies.sheets;
}

const char* World::backend() {
    return kEmbreeName;
}

bool is_see_through(const Material& m) {
    return m.opacity < 1.0F || m.opacity_texture >= 0 || m.kind == MaterialKind::kThinGlass ||
           (m.kind == MaterialKind::kSheet && m.direct > 0.0F);
}

}  // namespace dapple
