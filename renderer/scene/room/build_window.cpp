// Builds panels of light from [[window]]: the sky, dusk or a lit street in an opening.
//
// A surface of the room, or a rectangle on a wall of a box, becomes a fixture: a Lambertian face of
// the given luminance, kBeforeSurface in front of the surface, on the camera's side. A surface of
// several rectangles becomes as many fixtures.
// Spectrum: CIE daylight from 4000 K up, Planck's below, as of street light.
#include <algorithm>
#include <cmath>

#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/fixtures/source_limits.h"
#include "scene/models/check_mesh.h"
#include "scene/part_builders.h"
#include "scene/room/find_rectangle.h"
#include "scene/room/place_on_wall.h"

namespace dapple {

namespace {

constexpr float kBeforeSurface = 1e-3F;  // m
constexpr size_t kMostPanes = 32;        // of one window; each is a fixture
constexpr double kMaxLuminance = 1e9;    // cd/m², about that of the sun

// The part of the mesh that has this material.
Mesh part_of(const Mesh& mesh, MaterialId material) {
    Mesh part;
    part.positions = mesh.positions;
    for (size_t i = 0; i < mesh.triangles.size(); ++i) {
        if (mesh.materials[i] == material) part.triangles.push_back(mesh.triangles[i]);
    }
    return part;
}

// Each connected part of the surface as a rectangle. Returns none, with a problem, if a part is not
// a rectangle.
std::vector<Rectangle> find_panes(const Field<std::string>& surface,
                                  MaterialId material,
                                  const Scene& scene,
                                  Problems& problems) {
    std::vector<Rectangle> panes;
    for (const Mesh& mesh : scene.room) {
        const Mesh part = part_of(mesh, material);
        if (part.triangles.empty()) continue;
        for (const Shell& shell : find_shells(part)) {
            const RectangleSearch search = find_rectangle(part, shell.triangles);
            if (search.found && panes.size() < kMostPanes) {
                panes.push_back(*search.found);
                continue;
            }
            const Point at = shell.bounds.centre();
            problems.add(surface.place,
                         surface.key,
                         search.found
                             ? "\"" + surface.value + "\" has more than " +
                                   std::to_string(kMostPanes) + " panes; give them different names"
                             : "\"" + surface.value + "\" near (" + number_text(at.x) + ", " +
                                   number_text(at.y) + ", " + number_text(at.z) + ") m " +
                                   search.problem +
                                   "; a window must be flat and rectangular within 1 mm");
            return {};
        }
    }
    for (Rectangle& pane : panes) {
        const float to_camera = glm::dot(scene.camera.position - pane.centre, pane.facing);
        if (to_camera < 0) pane.facing = -pane.facing;
        pane.centre += kBeforeSurface * pane.facing;
    }
    return panes;
}

std::vector<Rectangle> build_panes(const WindowDescription& description,
                                   const SetDescription& set,
                                   const Scene& scene,
                                   Problems& problems) {
    const Field<std::string>& surface = description.surface;
    if (surface.written == description.on_wall.wall.written) {
        problems.add(description.place,
                     description.label,
                     "needs exactly one of surface and wall (with centre_m and size_m)");
        return {};
    }
    if (!surface.written) {
        return {place_on_wall(description.on_wall, set, kBeforeSurface, problems)};
    }
    const bool room_is_known = !set.room.given || !scene.room.empty();
    if (!surface.given || !room_is_known) return {};
    const MaterialId material = find_surface(surface, scene, problems);
    if (material == kNoMaterial) return {};
    std::vector<Rectangle> panes = find_panes(surface, material, scene, problems);
    return panes;
}

Fixture make_panel(const Rectangle& pane, double luminance, double cct_k) {
    Fixture light;
    light.is_window = true;
    light.form = FixtureForm::kPanel;
    light.source = window_source(cct_k);
    light.dimmer_warms = false;
    light.cct_k = static_cast<float>(cct_k);
    light.position = pane.centre;
    light.axis = pane.facing;
    light.up = pane.up;
    light.panel_size = pane.size;
    light.output = OutputKind::kPeakCandela;
    light.output_value = luminance * static_cast<double>(pane.size.x) * pane.size.y;
    return light;
}

void check_light_name(const Field<std::string>& field,
                      const std::string& name,
                      const Place& place,
                      const Scene& scene,
                      Problems& problems) {
    if (name.empty() || name.find('.') != std::string::npos) {
        problems.add(place,
                     field.key,
                     "names layers of the picture; must not be empty or contain a full stop");
    }
    const bool taken = std::any_of(scene.fixtures.begin(),
                                   scene.fixtures.end(),
                                   [&](const Fixture& f) { return f.name == name; });
    if (taken) {
        problems.add(
            place, field.key, "\"" + name + "\" is the name of another light; names must differ");
    }
}

// Of the sky or the street. What a meter reads at the pane is that of an even half-space: E = π L
// (E14).
double luminance_outside(const WindowDescription& description, Problems& problems) {
    const Field<double>& luminance = description.luminance_cd_m2;
    const Field<double>& lux = description.illuminance_lx;
    if (luminance.written && lux.written) {
        problems.add(lux.place, lux.key, "is given beside luminance_cd_m2; give only one of them");
        return 1;
    }
    if (lux.written) return checked_positive(lux, 1, kPi * kMaxLuminance, problems) / kPi;
    check_written(
        luminance,
        "give the luminance of the sky or the street outside in cd/m2, or illuminance_lx, "
        "a meter's reading at the pane",
        problems);
    return checked_positive(luminance, 1, kMaxLuminance, problems);
}

void add_window(const WindowDescription& description,
                const SetDescription& set,
                Scene& scene,
                Problems& problems) {
    const double luminance = luminance_outside(description, problems);
    const double cct_k = checked_range(
        description.cct_k, kWindowCct, kWindowCctRange.low, kWindowCctRange.high, problems);
    const std::vector<Rectangle> panes = build_panes(description, set, scene, problems);
    const std::string name = name_or_label(description.name, description);
    const Place& place = description.name.written ? description.name.place : description.place;
    for (size_t i = 0; i < panes.size(); ++i) {
        Fixture light = make_panel(panes[i], luminance, cct_k);
        light.name = panes.size() == 1 ? name : name + " " + std::to_string(i + 1);
        light.place = description.place;
        check_light_name(description.name, light.name, place, scene, problems);
        scene.fixtures.push_back(std::move(light));
    }
}

}  // namespace

void build_windows(const SetDescription& set, Scene& scene, Problems& problems) {
    for (const WindowDescription& window : set.windows) add_window(window, set, scene, problems);
}

}  // namespace dapple
