#include "geometry/world.h"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <cstring>
#include <stdexcept>

#include "base/large_memory.h"
#include "geometry/embree_api.h"
#include "geometry/facet.h"
#include "geometry/glassware/make_glass.h"
#include "geometry/lay_figure/make_stand_in.h"
#include "geometry/make_attachments.h"
#include "geometry/make_board.h"
#include "geometry/make_column.h"
#include "geometry/make_housing.h"

namespace dapple {

namespace {

constexpr uint32_t kNone = ~0U;

struct Body {
    uint32_t first = kNone;     // body's triangle 0 is this one of `facets`; kNone: a lamp face
    uint32_t first_uv = kNone;  // its corners are the first three of these `uvs`; kNone: has none
    int lamp = -1;              // fixture
    bool one_material = false;  // all its triangles are of this one
    MaterialId material = kNoMaterial;
    float rounds_at = 0;  // m, the largest coordinate of a corner
};

float largest_coordinate(const Point& p) {
    return std::max({std::abs(p.x), std::abs(p.y), std::abs(p.z)});
}

void on_embree_error(void*, RTCError code, const char* message) {
    if (code == RTC_ERROR_OUT_OF_MEMORY) throw std::bad_alloc();
    throw std::runtime_error(std::string("ray tracing kernels: ") + (message ? message : "?"));
}

}  // namespace

namespace {

// Glass, and mirrors: what throws light in patterns that camera walks do not find.
bool breaks_beams(const Material& m) {
    constexpr float kMirror = 0.03F;  // roughness
    return m.kind == MaterialKind::kGlass ||
           (m.kind == MaterialKind::kConductor && m.roughness < kMirror);
}

Bounds bounds_of_breaking(const Mesh& mesh, const Scene& scene) {
    Bounds bounds;
    for (size_t t = 0; t < mesh.triangles.size(); ++t) {
        const MaterialId id = mesh.materials[t];
        if (id == kNoMaterial || !breaks_beams(scene.materials[static_cast<size_t>(id)])) continue;
        for (int c = 0; c < 3; ++c) bounds.add(mesh.positions[mesh.triangles[t][c]]);
    }
    return bounds;
}

}  // namespace

bool is_see_through(const Material& m) {
    return m.opacity < 1.0F || m.opacity_texture >= 0 || m.kind == MaterialKind::kThinGlass ||
           (m.kind == MaterialKind::kSheet && m.direct > 0.0F);
}

struct World::Parts {
    RTCDevice device = nullptr;
    RTCScene everything = nullptr;
    RTCScene opaque = nullptr;   // the same as `everything` where nothing is see-through
    RTCScene passing = nullptr;  // the rest
    std::vector<Facet> facets;   // grouped by body
    std::vector<int>
        sheet_of;  // by facet, into `sheets`; -1: none. Empty where there are no sheets
    std::vector<Vec2> uvs;
    std::vector<SheetTriangle> sheets;
    std::vector<Body> bodies;
    Bounds bounds;
    std::vector<Bounds> broken_beam_bounds;
    std::vector<Bounds> diffuser_bounds;
    bool see_through = false;
    RayLog* log = nullptr;

    Parts();
    ~Parts();
    Parts(const Parts&) = delete;
    Parts& operator=(const Parts&) = delete;

    void add_mesh(const Mesh& mesh, const Scene& scene);
    void add_triangles(const Mesh& m,
                       const Scene& scene,
                       const std::vector<uint32_t>& picked,
                       bool clear);
    void add_facet(const Mesh& m, const Scene& scene, uint32_t triangle, uint32_t of_body);
    void add_lamp(const Fixture& fixture, int index);
    void attach(RTCGeometry geometry, Body body, bool clear);
};

World::Parts::Parts() {
    device = rtcNewDevice(nullptr);
    if (!device) throw std::runtime_error("ray tracing kernels: no device on this machine");
    rtcSetDeviceErrorFunction(device, on_embree_error, nullptr);
    everything = rtcNewScene(device);
    opaque = rtcNewScene(device);
    passing = rtcNewScene(device);
    for (RTCScene scene : {everything, opaque, passing}) {
        // Robust: rays must not slip through between the triangles of a glass.
        rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
        rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_MEDIUM);
    }
}

World::Parts::~Parts() {
    if (opaque != everything) rtcReleaseScene(opaque);
    rtcReleaseScene(passing);
    rtcReleaseScene(everything);
    rtcReleaseDevice(device);
}

void World::Parts::attach(RTCGeometry geometry, Body body, bool passes) {
    rtcCommitGeometry(geometry);
    const auto id = static_cast<unsigned>(bodies.size());
    rtcAttachGeometryByID(everything, geometry, id);
    see_through = see_through || passes;
    rtcAttachGeometryByID(passes ? passing : opaque, geometry, id);
    rtcReleaseGeometry(geometry);
    bodies.push_back(body);
}

void World::Parts::add_facet(const Mesh& m,
                             const Scene& scene,
                             uint32_t triangle,
                             uint32_t of_body) {
    const MaterialId material = m.materials[triangle];
    const glm::uvec3 corner = m.triangles[triangle];
    std::array<Point, 3> corners;
    std::array<Normal, 3> normals;
    for (int c = 0; c < 3; ++c) {
        const auto i = static_cast<size_t>(c);
        corners[i] = m.positions[corner[c]];
        normals[i] = m.normals.empty() ? Normal(0) : m.normals[corner[c]];
    }
    for (int c = 0; c < 3 && !m.uvs.empty(); ++c) uvs.push_back(m.uvs[corner[c]]);
    if (material != kNoMaterial &&
        scene.materials[static_cast<size_t>(material)].kind == MaterialKind::kSheet) {
        sheet_of.resize(facets.size() + 1, -1);
        sheet_of.back() = static_cast<int>(sheets.size());
        const auto body = static_cast<uint32_t>(bodies.size());
        sheets.push_back({body, of_body, corners[0], corners[1], corners[2], material});
    }
    facets.emplace_back(corners, normals, material);
}

void World::Parts::add_triangles(const Mesh& m,
                                 const Scene& scene,
                                 const std::vector<uint32_t>& picked,
                                 bool clear) {
    if (picked.empty()) return;
    RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* vertices = static_cast<float*>(rtcSetNewGeometryBuffer(geometry,
                                                                 RTC_BUFFER_TYPE_VERTEX,
                                                                 0,
                                                                 RTC_FORMAT_FLOAT3,
                                                                 3 * sizeof(float),
                                                                 m.positions.size()));
    for (size_t i = 0; i < m.positions.size(); ++i) {
        for (int c = 0; c < 3; ++c) vertices[3 * i + static_cast<size_t>(c)] = m.positions[i][c];
    }
    auto* indices = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
        geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), picked.size()));
    Body body;
    body.first = static_cast<uint32_t>(facets.size());
    if (!m.uvs.empty()) body.first_uv = static_cast<uint32_t>(uvs.size());
    body.material = m.materials[picked.front()];
    body.one_material = std::all_of(picked.begin(), picked.end(), [&](uint32_t triangle) {
        return m.materials[triangle] == body.material;
    });
    for (const uint32_t triangle : picked) {
        for (int c = 0; c < 3; ++c) {
            const float largest = largest_coordinate(m.positions[m.triangles[triangle][c]]);
            body.rounds_at = std::max(body.rounds_at, largest);
        }
    }
    reserve_large(facets, facets.size() + picked.size());
    if (!m.uvs.empty()) reserve_large(uvs, uvs.size() + 3 * picked.size());
    for (size_t i = 0; i < picked.size(); ++i) {
        for (int c = 0; c < 3; ++c) {
            indices[3 * i + static_cast<size_t>(c)] = m.triangles[picked[i]][c];
        }
        add_facet(m, scene, picked[i], static_cast<uint32_t>(i));
    }
    attach(geometry, body, clear);
}

void World::Parts::add_mesh(const Mesh& mesh, const Scene& scene) {
    if (mesh.triangles.empty()) return;
    std::vector<uint32_t> solid;
    std::vector<uint32_t> clear;
    for (uint32_t i = 0; i < mesh.triangles.size(); ++i) {
        const MaterialId id = mesh.materials[i];
        const bool passes =
            id != kNoMaterial && is_see_through(scene.materials[static_cast<size_t>(id)]);
        (passes ? clear : solid).push_back(i);
    }
    for (const Point& p : mesh.positions) bounds.add(p);
    add_triangles(mesh, scene, solid, false);
    add_triangles(mesh, scene, clear, true);
}

void World::Parts::add_lamp(const Fixture& f, int index) {
    const float radius = 0.5F * f.source_diameter;
    RTCGeometry geometry = nullptr;
    const auto new_buffer = [&](RTCBufferType type, RTCFormat format, size_t floats, size_t count) {
        return static_cast<float*>(
            rtcSetNewGeometryBuffer(geometry, type, 0, format, floats * sizeof(float), count));
    };
    const auto put = [](float* to, const Vec3& v) {
        to[0] = v.x;
        to[1] = v.y;
        to[2] = v.z;
    };
    if (f.form == FixtureForm::kPanel) {
        const Frame frame = fixture_frame(f);
        const Vec3 s = 0.5F * f.panel_size.x * frame.s;
        const Vec3 t = 0.5F * f.panel_size.y * frame.t;
        geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_QUAD);
        float* corners = new_buffer(RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT3, 3, 4);
        put(corners, f.position - s - t);
        put(corners + 3, f.position - s + t);
        put(corners + 6, f.position + s + t);
        put(corners + 9, f.position + s - t);
        auto* quad = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
            geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT4, 4 * sizeof(unsigned), 1));
        for (unsigned i = 0; i < 4; ++i) quad[i] = i;
    } else if (radius <= 0.0F) {
        return;  // a point cannot be met
    } else {
        const bool sphere = f.form == FixtureForm::kBare;
        geometry = rtcNewGeometry(
            device,
            sphere ? RTC_GEOMETRY_TYPE_SPHERE_POINT : RTC_GEOMETRY_TYPE_ORIENTED_DISC_POINT);
        float* centre = new_buffer(RTC_BUFFER_TYPE_VERTEX, RTC_FORMAT_FLOAT4, 4, 1);
        put(centre, f.position);
        centre[3] = radius;
        if (!sphere) put(new_buffer(RTC_BUFFER_TYPE_NORMAL, RTC_FORMAT_FLOAT3, 3, 1), f.axis);
    }
    Body body;
    body.lamp = index;
    body.one_material = true;
    attach(geometry, body, false);
}

World::World(const Scene& scene) : parts_(std::make_unique<Parts>()) {
    Parts& p = *parts_;
    for (const Mesh& mesh : scene.room) {
        const Bounds breaking = bounds_of_breaking(mesh, scene);
        if (!breaking.empty()) p.broken_beam_bounds.push_back(breaking);
        p.add_mesh(mesh, scene);
    }
    for (const GlassObject& glass : scene.glasses) {
        Bounds bounds;
        for (const Mesh& mesh : make_glass(glass, scene)) {
            for (const Point& q : mesh.positions) bounds.add(q);
            p.add_mesh(mesh, scene);
        }
        p.broken_beam_bounds.push_back(bounds);
    }
    for (const Board& board : scene.boards) {
        const Mesh mesh = make_board(board);
        if (board.kind == BoardKind::kDiffuser) {
            p.diffuser_bounds.emplace_back();
            for (const Point& q : mesh.positions) p.diffuser_bounds.back().add(q);
        } else if (const Bounds breaking = bounds_of_breaking(mesh, scene); !breaking.empty()) {
            p.broken_beam_bounds.push_back(breaking);
        }
        p.add_mesh(mesh, scene);
    }
    for (const Column& column : scene.columns) p.add_mesh(make_column(column), scene);
    for (const StandIn& figure : scene.stand_ins) {
        for (const Mesh& mesh : make_stand_in(figure)) p.add_mesh(mesh, scene);
    }
    for (size_t i = 0; i < scene.fixtures.size(); ++i) {
        const Fixture& fixture = scene.fixtures[i];
        p.add_mesh(make_housing(fixture, scene.housing_material), scene);
        p.add_mesh(make_barn_doors(fixture, scene.housing_material), scene);
        p.add_mesh(make_snoot(fixture, scene.housing_material), scene);
        if (fixture.stand) {
            const std::optional<float> floor = floor_below(scene.room, fixture.position);
            if (floor) p.add_mesh(make_stand(fixture, *floor, scene.housing_material), scene);
        }
        p.add_lamp(fixture, static_cast<int>(i));
        p.bounds.add(fixture.position);
    }
    rtcCommitScene(p.everything);
    rtcCommitScene(p.passing);
    if (p.see_through) {
        rtcCommitScene(p.opaque);
    } else {
        rtcReleaseScene(p.opaque);
        p.opaque = p.everything;
    }
}

World::~World() = default;
World::World(World&&) noexcept = default;
World& World::operator=(World&&) noexcept = default;

namespace {

// A number that was stored alone a moment ago: loaded with its neighbours it would have to wait
// until all of them are in the cache.
float loaded_alone(float x) {
#if defined(__x86_64__)
    asm("" : "+x"(x));
#endif
    return x;
}

static_assert(offsetof(RTCRay, tnear) == offsetof(RTCRay, org_x) + 12 &&
              offsetof(RTCRay, time) == offsetof(RTCRay, dir_x) + 12);

RTCRay embree_ray(const Ray& ray) {
    const auto four_of = [](const Vec3& v, float w) {
        return Four{loaded_alone(v.x), loaded_alone(v.y), loaded_alone(v.z), w};
    };
    // As the kernels load them: origin and tnear, direction and time.
    const Four from = four_of(ray.origin, loaded_alone(ray.t_min));
    const Four along = four_of(ray.direction, 0);
    RTCRay r;
    std::memcpy(&r.org_x, &from, sizeof(from));
    std::memcpy(&r.dir_x, &along, sizeof(along));
    r.tfar = ray.t_max;
    r.mask = ~0U;
    r.id = 0;
    r.flags = 0;
    return r;
}

}  // namespace

void World::record(RayLog* log) {
    parts_->log = log;
}

namespace {

void put_down(RayLog& log, const Ray& ray, bool is_shadow) {
    log.rays.push_back(ray);
    log.is_shadow.push_back(is_shadow);
}

}  // namespace

namespace {

bool first_hit(RTCScene scene, const Ray& ray, Hit& hit) {
    RTCRayHit query;
    query.ray = embree_ray(ray);
    query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
    query.hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
    embree_intersect(scene, query);
    if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return false;
    hit.t = query.ray.tfar;
    hit.body = query.hit.geomID;
    hit.triangle = query.hit.primID;
    hit.u = query.hit.u;
    hit.v = query.hit.v;
    hit.normal = Vec3(query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z);
    return true;
}

}  // namespace

bool World::closest(const Ray& ray, Hit& hit) const {
    if (parts_->log) put_down(*parts_->log, ray, false);
    if (!first_hit(parts_->everything, ray, hit)) return false;
    // Most likely it is asked for next, and lies far off in memory.
    const uint32_t first = parts_->bodies[hit.body].first;
    if (first != kNone) __builtin_prefetch(&parts_->facets[first + hit.triangle]);
    return true;
}

bool World::closest_see_through(const Ray& ray, Hit& hit) const {
    return parts_->see_through && first_hit(parts_->passing, ray, hit);
}

bool World::blocked(const Ray& ray) const {
    if (parts_->log) put_down(*parts_->log, ray, true);
    RTCRay query = embree_ray(ray);
    embree_occluded(parts_->opaque, query);
    return query.tfar < 0;
}

const Bounds& World::bounds() const {
    return parts_->bounds;
}
const std::vector<Bounds>& World::broken_beam_bounds() const {
    return parts_->broken_beam_bounds;
}
const std::vector<Bounds>& World::diffuser_bounds() const {
    return parts_->diffuser_bounds;
}
int64_t World::triangles() const {
    return static_cast<int64_t>(parts_->facets.size());
}
const std::vector<SheetTriangle>& World::sheets() const {
    return parts_->sheets;
}

MaterialId World::material_at(const Hit& hit) const {
    const Body& body = parts_->bodies[hit.body];
    if (body.one_material) return body.material;
    return parts_->facets[body.first + hit.triangle].material();
}

void World::surface_at(const Ray& ray, const Hit& hit, SurfacePoint& at) const {
    const Body& body = parts_->bodies[hit.body];
    at = SurfacePoint{};
    at.distance = hit.t;
    if (body.first == kNone) {
        at.lamp = body.lamp;
        at.position = ray.origin + hit.t * ray.direction;
        at.geometric = at.shading = glm::normalize(hit.normal);
        return;
    }
    at.facet = body.first + hit.triangle;
    const Facet& facet = parts_->facets[at.facet];
    at.barycentric = Vec2(hit.u, hit.v);
    at.material = facet.material();
    if (at.facet < parts_->sheet_of.size()) at.sheet = parts_->sheet_of[at.facet];
    const OnFacet on(facet, hit.u, hit.v);
    at.position = three(on.position);
    at.rounds_at = on.rounds_at;
    at.geometric = three(on.geometric);
    at.shading = three(on.shading);
    if (body.first_uv != kNone) {
        const Vec2* uv = &parts_->uvs[body.first_uv + 3 * size_t{hit.triangle}];
        const float w = 1.0F - hit.u - hit.v;
        at.uv = w * uv[0] + hit.u * uv[1] + hit.v * uv[2];
    }
}

FourVectors World::normal_changes(const SurfacePoint& at, const FourVectors& steps) const {
    if (at.facet == kNone) return {};
    const Facet& facet = parts_->facets[at.facet];
    if (facet.is_flat()) return {};
    const Vec3 e1 = facet.corner(1) - facet.corner(0);
    const Vec3 e2 = facet.corner(2) - facet.corner(0);
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

const char* World::backend() {
#if RTC_VERSION_MAJOR >= 4
    return "Embree 4";
#else
    return "Embree 3";
#endif
}

namespace {

// Positions are reckoned in floats, and the next ray meets the triangle in floats: errors of a few
// units in the last place of the largest coordinate that they are reckoned from, 2^-24 each. 32 of
// them keep clear of it and are 12 µm at 6 m.
float clear_of(float largest) {
    return 0x1p-19F * std::max(largest, 0.05F);
}

}  // namespace

Point offset_origin(const SurfacePoint& at, const Direction& direction) {
    // The triangle's corners count too: rounds_at.
    const float offset = clear_of(std::max(largest_coordinate(at.position), at.rounds_at));
    return at.position +
           (glm::dot(at.geometric, direction) >= 0.0F ? offset : -offset) * at.geometric;
}

Point World::origin_behind(const Ray& ray, const Hit& hit) const {
    const Point met = ray.origin + hit.t * ray.direction;
    const float largest = std::max({largest_coordinate(met),
                                    largest_coordinate(ray.origin),
                                    hit.t,
                                    parts_->bodies[hit.body].rounds_at});
    const float offset = clear_of(largest) / glm::length(hit.normal);
    return met + (glm::dot(hit.normal, ray.direction) >= 0.0F ? offset : -offset) * hit.normal;
}

}  // namespace dapple
