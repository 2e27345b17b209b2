#include "geometry/make_bodies.h"

#include <algorithm>
#include <array>
#include <cstring>

#include "base/fill_in_steps.h"
#include "base/parallel.h"

namespace dapple {

namespace {

constexpr uint8_t kSeeThrough = 1;
constexpr uint8_t kBreaksBeams = 2;  // glass and mirrors: patterns that camera walks do not find
constexpr uint8_t kSheetKind = 4;

bool breaks_beams(const Material& m) {
    constexpr float kMirror = 0.03F;  // roughness
    return m.kind == MaterialKind::kGlass ||
           (m.kind == MaterialKind::kConductor && m.roughness < kMirror);
}

std::vector<uint8_t> kinds_of(const std::vector<Material>& materials) {
    std::vector<uint8_t> kinds;
    for (const Material& m : materials) {
        const int kind = (is_see_through(m) ? kSeeThrough : 0) |
                         (breaks_beams(m) ? kBreaksBeams : 0) |
                         (m.kind == MaterialKind::kSheet ? kSheetKind : 0);
        kinds.push_back(static_cast<uint8_t>(kind));
    }
    return kinds;
}

template <class T>
bool same_bytes(const std::vector<T>& a, const std::vector<T>& b) {
    return a.size() == b.size() &&
           (a.empty() || std::memcmp(a.data(), b.data(), a.size() * sizeof(T)) == 0);
}

bool same_mesh(const Mesh& a, const Mesh& b) {
    return same_bytes(a.positions, b.positions) && same_bytes(a.normals, b.normals) &&
           same_bytes(a.uvs, b.uvs) && same_bytes(a.colours, b.colours) &&
           same_bytes(a.triangles, b.triangles) && same_bytes(a.materials, b.materials);
}

LampFacePlace place_of_face(const Fixture& f) {
    const bool is_panel = f.form == FixtureForm::kPanel;
    return {f.position, fixture_frame(f), is_panel ? f.panel_size : Vec2(f.source_diameter)};
}

}  // namespace

BodyMaker::BodyMaker(const Scene& scene, KernelScenes& kernels, Bodies before)
    : scene_(scene),
      kernels_(kernels),
      before_(std::move(before)),
      kinds_(kinds_of(scene.materials)),
      same_kinds_(kernels.is_changing() && kinds_ == before_.material_kinds) {
    bodies_.facets = std::move(before_.facets);
    bodies_.uvs = std::move(before_.uvs);
    bodies_.colours = std::move(before_.colours);
}

void BodyMaker::begin_thing(ThingKind kind, size_t index) {
    bodies_.owners.push_back(
        {static_cast<uint32_t>(counts_.facets), {kind, static_cast<int>(index)}});
}

MeshBounds BodyMaker::add_mesh(const Mesh& mesh) {
    if (mesh.triangles.empty()) return {};
    stop_if_asked();
    MadeMesh* const before = made_before(mesh);
    ++next_mesh_;
    if (before) {
        keep(*before);
        bodies_.bounds.add(before->bounds.all);
        bodies_.meshes.push_back(std::move(*before));
        before->mesh.triangles.clear();
        return bodies_.meshes.back().bounds;
    }
    const BodyCounts first = counts_;
    std::vector<uint32_t> opaque;
    std::vector<uint32_t> see_through;
    for (uint32_t i = 0; i < mesh.triangles.size(); ++i) {
        (has(mesh, i, kSeeThrough) ? see_through : opaque).push_back(i);
    }
    stop_if_asked();
    add_triangles(mesh, opaque, false);
    add_triangles(mesh, see_through, true);
    stop_if_asked();
    const MeshBounds bounds = bounds_of(mesh);
    stop_if_asked();
    bodies_.bounds.add(bounds.all);
    if (kernels_.is_changing()) {
        bodies_.meshes.push_back({mesh, first, counts_, bounds});
        bodies_.changed_bounds.push_back(bounds.all);
    }
    return bounds;
}

MadeMesh* BodyMaker::made_before(const Mesh& mesh) {
    if (!same_kinds_ || next_mesh_ >= before_.meshes.size()) return nullptr;
    MadeMesh& before = before_.meshes[next_mesh_];
    return before.first == counts_ && same_mesh(before.mesh, mesh) ? &before : nullptr;
}

void BodyMaker::keep(const MadeMesh& made) {
    for (size_t i = made.first.list; i < made.end.list; ++i) {
        bodies_.list.push_back(before_.list[i]);
        kernels_.keep(static_cast<uint32_t>(i));
    }
    for (size_t i = made.first.sheets; i < made.end.sheets; ++i) {
        const SheetTriangle& sheet = before_.sheets[i];
        add_sheet(sheet, before_.list[sheet.body].first_facet + sheet.triangle);
    }
    counts_ = made.end;
}

MeshBounds BodyMaker::bounds_of(const Mesh& mesh) const {
    MeshBounds bounds;
    for (const Point& p : mesh.positions) bounds.all.add(p);
    for (size_t t = 0; t < mesh.triangles.size(); ++t) {
        if (!has(mesh, t, kBreaksBeams)) continue;
        for (int c = 0; c < 3; ++c) bounds.breaking.add(mesh.positions[mesh.triangles[t][c]]);
    }
    return bounds;
}

void BodyMaker::add_triangles(const Mesh& mesh,
                              const std::vector<uint32_t>& picked,
                              bool see_through) {
    if (picked.empty()) return;
    kernels_.add_triangles(static_cast<uint32_t>(counts_.list), mesh, picked, see_through);
    stop_if_asked();
    Body body;
    body.first_facet = static_cast<uint32_t>(counts_.facets);
    if (!mesh.uvs.empty()) body.first_uv = static_cast<uint32_t>(counts_.uvs);
    if (!mesh.colours.empty()) body.first_colour = static_cast<uint32_t>(counts_.colours);
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
    const auto number = static_cast<uint32_t>(counts_.list);
    for (uint32_t i = 0; i < picked.size(); ++i) {
        if (!has(mesh, picked[i], kSheetKind)) continue;
        const glm::uvec3 corner = mesh.triangles[picked[i]];
        add_sheet({number,
                   i,
                   mesh.positions[corner[0]],
                   mesh.positions[corner[1]],
                   mesh.positions[corner[2]],
                   mesh.materials[picked[i]]},
                  body.first_facet + i);
    }
    stop_if_asked();
    add_corners(mesh, picked);
    stop_if_asked();
    add_facets(mesh, picked);
    bodies_.list.push_back(body);
    ++counts_.list;
}

void BodyMaker::add_corners(const Mesh& mesh, const std::vector<uint32_t>& picked) {
    if (!mesh.uvs.empty()) grow_in_steps(bodies_.uvs, counts_.uvs + 3 * picked.size(), Vec2(0));
    if (!mesh.colours.empty()) {
        grow_in_steps(bodies_.colours, counts_.colours + 3 * picked.size(), PackedColour(Rgb(0)));
    }
    for (const uint32_t triangle : picked) {
        const glm::uvec3 corner = mesh.triangles[triangle];
        for (int c = 0; c < 3 && !mesh.uvs.empty(); ++c) {
            bodies_.uvs[counts_.uvs++] = mesh.uvs[corner[c]];
        }
        for (int c = 0; c < 3 && !mesh.colours.empty(); ++c) {
            bodies_.colours[counts_.colours++] = PackedColour(mesh.colours[corner[c]]);
        }
    }
}

void BodyMaker::add_sheet(const SheetTriangle& sheet, size_t facet) {
    bodies_.sheet_of_facet.resize(facet + 1, -1);
    bodies_.sheet_of_facet.back() = static_cast<int>(bodies_.sheets.size());
    bodies_.sheets.push_back(sheet);
    counts_.sheets = bodies_.sheets.size();
}

void BodyMaker::add_facets(const Mesh& mesh, const std::vector<uint32_t>& picked) {
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
    const size_t first = counts_.facets;
    counts_.facets += picked.size();
    grow_in_steps(bodies_.facets, counts_.facets, facet_of(picked.front()));
    constexpr int64_t kFacetsPerBlock = 4096;
    parallel_blocks(
        static_cast<int64_t>(picked.size()), kFacetsPerBlock, [&](int64_t i, int64_t end) {
            for (auto p = static_cast<size_t>(i); p < static_cast<size_t>(end); ++p) {
                bodies_.facets[first + p] = facet_of(picked[p]);
            }
        });
}

void BodyMaker::add_lamp(int index) {
    const Fixture& fixture = scene_.fixtures[static_cast<size_t>(index)];
    bodies_.lamps.push_back(place_of_face(fixture));
    const auto number = static_cast<uint32_t>(counts_.list);
    if (!kernels_.add_lamp_face(number, fixture)) return;
    Body body;
    body.lamp = index;
    body.one_material = true;
    bodies_.list.push_back(body);
    ++counts_.list;
}

// Of lamps' faces, and of meshes that are not there any more.
void BodyMaker::note_changes() {
    for (const MadeMesh& before : before_.meshes) {
        if (!before.mesh.triangles.empty()) bodies_.changed_bounds.push_back(before.bounds.all);
    }
    const std::vector<LampFacePlace>& was = before_.lamps;
    const std::vector<LampFacePlace>& is = bodies_.lamps;
    for (size_t i = 0; i < std::max(was.size(), is.size()); ++i) {
        const bool is_same = i < was.size() && i < is.size() && was[i].is_same_as(is[i]);
        if (!is_same && i < was.size()) bodies_.changed_bounds.push_back(was[i].bounds());
        if (!is_same && i < is.size()) bodies_.changed_bounds.push_back(is[i].bounds());
    }
}

Bodies BodyMaker::take() {
    if (kernels_.is_changing()) note_changes();
    bodies_.facets.erase(bodies_.facets.begin() + static_cast<std::ptrdiff_t>(counts_.facets),
                         bodies_.facets.end());
    bodies_.uvs.resize(counts_.uvs);
    bodies_.colours.erase(bodies_.colours.begin() + static_cast<std::ptrdiff_t>(counts_.colours),
                          bodies_.colours.end());
    bodies_.material_kinds = kinds_;
    return std::move(bodies_);
}

}  // namespace dapple
