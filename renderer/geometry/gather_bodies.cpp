#include "geometry/gather_bodies.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/large_memory.h"
#include "base/parallel.h"
#include "geometry/glassware/make_glass.h"
#include "geometry/lay_figure/make_stand_in.h"
#include "geometry/make_attachments.h"
#include "geometry/make_board.h"
#include "geometry/make_column.h"
#include "geometry/make_housing.h"
#include "geometry/world.h"

namespace dapple {

namespace {

// Glass and mirrors: they throw light in patterns that camera walks do not find.
bool breaks_beams(const Material& m) {
    constexpr float kMirror = 0.03F;  // roughness
    return m.kind == MaterialKind::kGlass ||
           (m.kind == MaterialKind::kConductor && m.roughness < kMirror);
}

bool is_sheet(const Material& m) {
    return m.kind == MaterialKind::kSheet;
}

Bounds bounds_of_corners(const Mesh& mesh) {
    Bounds bounds;
    for (const Point& p : mesh.positions) bounds.add(p);
    return bounds;
}

class BodyGatherer {
  public:
    BodyGatherer(const Scene& scene, KernelScenes& kernels, Bodies room)
        : scene_(scene), kernels_(kernels), bodies_(std::move(room)) {}

    void add_room();
    void add_glassware();
    void add_boards();
    void add_columns();
    void add_lay_figures();
    void add_fixtures();

    Bodies take() { return std::move(bodies_); }

  private:
    // Whether the triangle has a material and the material has the property.
    bool has(const Mesh& mesh, size_t triangle, bool (*property)(const Material&)) const {
        const MaterialId id = mesh.materials[triangle];
        return id != kNoMaterial && property(scene_.materials[static_cast<size_t>(id)]);
    }
    // The triangles that are added from now on belong to this thing.
    void begin_thing(ThingKind kind, size_t index);
    void add_bounds_of_breaking(const Mesh& mesh);
    void add_mesh(const Mesh& mesh);
    void add_triangles(const Mesh& mesh, const std::vector<uint32_t>& picked, bool see_through);
    void add_corners(const Mesh& mesh, uint32_t triangle);
    void add_sheet(const Mesh& mesh, uint32_t triangle, uint32_t triangle_of_body, size_t facet);
    void add_facets(const Mesh& mesh, const std::vector<uint32_t>& picked);
    void add_lamp(int index);

    const Scene& scene_;
    KernelScenes& kernels_;
    Bodies bodies_;
};

void BodyGatherer::begin_thing(ThingKind kind, size_t index) {
    bodies_.owners.push_back(
        {static_cast<uint32_t>(bodies_.facets.size()), {kind, static_cast<int>(index)}});
}

void BodyGatherer::add_room() {
    for (const Mesh& mesh : scene_.room) {
        add_bounds_of_breaking(mesh);
        add_mesh(mesh);
    }
}

void BodyGatherer::add_glassware() {
    for (size_t i = 0; i < scene_.glasses.size(); ++i) {
        const GlassObject& glass = scene_.glasses[i];
        begin_thing(ThingKind::kGlass, i);
        Bounds bounds;
        for (const Mesh& mesh : make_glass(glass, scene_)) {
            for (const Point& p : mesh.positions) bounds.add(p);
            add_mesh(mesh);
        }
        bodies_.broken_beam_bounds.push_back(bounds);
    }
}

void BodyGatherer::add_boards() {
    for (size_t i = 0; i < scene_.boards.size(); ++i) {
        const Board& board = scene_.boards[i];
        begin_thing(ThingKind::kBoard, i);
        const Mesh mesh = make_board(board);
        if (board.kind == BoardKind::kDiffuser) {
            bodies_.diffuser_bounds.push_back(bounds_of_corners(mesh));
        } else {
            add_bounds_of_breaking(mesh);
        }
        add_mesh(mesh);
    }
}

void BodyGatherer::add_columns() {
    for (size_t i = 0; i < scene_.columns.size(); ++i) {
        begin_thing(ThingKind::kColumn, i);
        add_mesh(make_column(scene_.columns[i]));
    }
}

void BodyGatherer::add_lay_figures() {
    for (size_t i = 0; i < scene_.stand_ins.size(); ++i) {
        begin_thing(ThingKind::kFigure, i);
        for (const Mesh& mesh : make_stand_in(scene_.stand_ins[i])) add_mesh(mesh);
    }
}

void BodyGatherer::add_fixtures() {
    for (size_t i = 0; i < scene_.fixtures.size(); ++i) {
        const Fixture& fixture = scene_.fixtures[i];
        begin_thing(ThingKind::kHousing, i);
        add_mesh(make_housing(fixture, scene_.housing_material));
        add_mesh(make_barn_doors(fixture, scene_.housing_material));
        add_mesh(make_snoot(fixture, scene_.housing_material));
        if (fixture.stand) {
            const std::optional<float> floor = floor_below(scene_.room, fixture.position);
            begin_thing(ThingKind::kStand, i);
            if (floor) add_mesh(make_stand(fixture, *floor, scene_.housing_material));
        }
        add_lamp(static_cast<int>(i));
        bodies_.bounds.add(fixture.position);
    }
}

void BodyGatherer::add_bounds_of_breaking(const Mesh& mesh) {
    Bounds bounds;
    for (size_t t = 0; t < mesh.triangles.size(); ++t) {
        if (!has(mesh, t, breaks_beams)) continue;
        for (int c = 0; c < 3; ++c) bounds.add(mesh.positions[mesh.triangles[t][c]]);
    }
    if (!bounds.empty()) bodies_.broken_beam_bounds.push_back(bounds);
}

void BodyGatherer::add_mesh(const Mesh& mesh) {
    if (mesh.triangles.empty()) return;
    stop_if_asked();
    std::vector<uint32_t> opaque;
    std::vector<uint32_t> see_through;
    for (uint32_t i = 0; i < mesh.triangles.size(); ++i) {
        (has(mesh, i, is_see_through) ? see_through : opaque).push_back(i);
    }
    for (const Point& p : mesh.positions) bodies_.bounds.add(p);
    add_triangles(mesh, opaque, false);
    add_triangles(mesh, see_through, true);
}

void BodyGatherer::add_triangles(const Mesh& mesh,
                                 const std::vector<uint32_t>& picked,
                                 bool see_through) {
    if (picked.empty()) return;
    kernels_.add_triangles(static_cast<uint32_t>(bodies_.list.size()), mesh, picked, see_through);
    Body body;
    body.first_facet = static_cast<uint32_t>(bodies_.facets.size());
    if (!mesh.uvs.empty()) body.first_uv = static_cast<uint32_t>(bodies_.uvs.size());
    if (!mesh.colours.empty()) body.first_colour = static_cast<uint32_t>(bodies_.colours.size());
    body.material = mesh.materials[picked.front()];
    body.one_material = std::all_of(picked.begin(), picked.end(), [&](uint32_t triangle) {
        return mesh.materials[triangle] == body.material;
    });
    for (const uint32_t triangle : picked) {
        for (int c = 0; c < 3; ++c) {
            const float largest =
                largest_coordinate_of(mesh.positions[mesh.triangles[triangle][c]]);
            body.largest_coordinate = std::max(body.largest_coordinate, largest);
        }
    }
    if (!mesh.uvs.empty()) reserve_large(bodies_.uvs, bodies_.uvs.size() + 3 * picked.size());
    if (!mesh.colours.empty()) {
        reserve_large(bodies_.colours, bodies_.colours.size() + 3 * picked.size());
    }
    for (uint32_t i = 0; i < picked.size(); ++i) {
        add_corners(mesh, picked[i]);
        if (has(mesh, picked[i], is_sheet)) add_sheet(mesh, picked[i], i, body.first_facet + i);
    }
    add_facets(mesh, picked);
    bodies_.list.push_back(body);
}

void BodyGatherer::add_corners(const Mesh& mesh, uint32_t triangle) {
    const glm::uvec3 corner = mesh.triangles[triangle];
    for (int c = 0; c < 3 && !mesh.uvs.empty(); ++c) bodies_.uvs.push_back(mesh.uvs[corner[c]]);
    for (int c = 0; c < 3 && !mesh.colours.empty(); ++c) {
        bodies_.colours.emplace_back(mesh.colours[corner[c]]);
    }
}

void BodyGatherer::add_sheet(const Mesh& mesh,
                             uint32_t triangle,
                             uint32_t triangle_of_body,
                             size_t facet) {
    bodies_.sheet_of_facet.resize(facet + 1, -1);
    bodies_.sheet_of_facet.back() = static_cast<int>(bodies_.sheets.size());
    const auto body = static_cast<uint32_t>(bodies_.list.size());
    const glm::uvec3 corner = mesh.triangles[triangle];
    bodies_.sheets.push_back({body,
                              triangle_of_body,
                              mesh.positions[corner[0]],
                              mesh.positions[corner[1]],
                              mesh.positions[corner[2]],
                              mesh.materials[triangle]});
}

void BodyGatherer::add_facets(const Mesh& mesh, const std::vector<uint32_t>& picked) {
    const auto facet_of = [&](uint32_t triangle) {
        const glm::uvec3 corner = mesh.triangles[triangle];
        std::array<Point, 3> corners;
        std::array<Normal, 3> normals;
        for (int c = 0; c < 3; ++c) {
            const auto i = static_cast<size_t>(c);
            corners[i] = mesh.positions[corner[c]];
            normals[i] = mesh.normals.empty() ? Normal(0) : mesh.normals[corner[c]];
        }
        return make_facet(corners, normals, mesh.materials[triangle]);
    };
    const size_t first = bodies_.facets.size();
    reserve_large(bodies_.facets, first + picked.size());
    bodies_.facets.resize(first + picked.size(), facet_of(picked.front()));
    constexpr int64_t kFacetsPerBlock = 4096;
    parallel_blocks(
        static_cast<int64_t>(picked.size()), kFacetsPerBlock, [&](int64_t i, int64_t end) {
            for (auto p = static_cast<size_t>(i); p < static_cast<size_t>(end); ++p) {
                bodies_.facets[first + p] = facet_of(picked[p]);
            }
        });
}

void BodyGatherer::add_lamp(int index) {
    const Fixture& fixture = scene_.fixtures[static_cast<size_t>(index)];
    const auto number = static_cast<uint32_t>(bodies_.list.size());
    if (!kernels_.add_lamp_face(number, fixture)) return;
    Body body;
    body.lamp = index;
    body.one_material = true;
    bodies_.list.push_back(body);
}

}  // namespace

Bodies gather_bodies(const Scene& scene, KernelScenes& kernels, Bodies before) {
    Bodies bodies;
    bodies.facets = std::move(before.facets);
    bodies.facets.clear();
    BodyGatherer gatherer(scene, kernels, std::move(bodies));
    gatherer.add_room();
    gatherer.add_glassware();
    gatherer.add_boards();
    gatherer.add_columns();
    gatherer.add_lay_figures();
    gatherer.add_fixtures();
    return gatherer.take();
}

}  // namespace dapple
