// Builds the room from [room] and [[surface]]: a model, or a box of given size.
//
// A box room of size [a, b, h] has its floor on y = 0 and is centred on x = z = 0, with a along x,
// b along z and h up. Its six walls face inwards. A model becomes one mesh, and one more for each
// material of glass, because that must be the boundary of a solid.
#include <algorithm>
#include <map>

#include "scene/build_material.h"
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/models/check_mesh.h"
#include "scene/models/make_mesh.h"
#include "scene/models/read_model.h"
#include "scene/part_builders.h"
#include "scene/texture_shelf.h"

namespace dapple {

namespace {

constexpr double kMaxRoom = 10000;  // m, a side

// A rectangle with its normal along u × v.
void add_wall(Mesh& mesh, const Point& corner, const Vec3& u, const Vec3& v, MaterialId material) {
    const auto first = static_cast<uint32_t>(mesh.positions.size());
    for (const Point& p : {corner, corner + u, corner + u + v, corner + v}) {
        mesh.positions.push_back(p);
    }
    mesh.triangles.emplace_back(first, first + 1, first + 2);
    mesh.triangles.emplace_back(first, first + 2, first + 3);
    mesh.materials.insert(mesh.materials.end(), 2, material);
}

Mesh make_box(const Vec3& size) {
    const Vec3 x(size.x, 0, 0);
    const Vec3 y(0, size.y, 0);
    const Vec3 z(0, 0, size.z);
    const Point low(-0.5F * size.x, 0, -0.5F * size.z);
    Mesh mesh;
    mesh.name = "room";
    add_wall(mesh, low, z, x, 0);      // floor
    add_wall(mesh, low + y, x, z, 1);  // ceiling
    add_wall(mesh, low, y, z, 2);      // wall_left
    add_wall(mesh, low + x, z, y, 3);  // wall_right
    add_wall(mesh, low, x, y, 4);      // wall_back
    add_wall(mesh, low + z, y, x, 5);  // wall_front
    return mesh;
}

void build_box(const RoomDescription& room, Scene& scene, Problems& problems) {
    for (const Field<std::string>* field : {&room.units.unit, &room.units.up}) {
        if (field->written) {
            problems.add(field->place, field->key, "belongs to model; size_m is in metres");
        }
    }
    for (const double side : room.size_m.value) {
        if (side > 0 && side <= kMaxRoom) continue;
        problems.add(room.size_m.place,
                     room.size_m.key,
                     "has " + number_text(side) + "; all three must be above 0, up to " +
                         number_text(kMaxRoom));
        return;
    }
    const Rgb reflectance =
        checked_colour(room.reflectance, Rgb(kBoxReflectance), kMaxReflectance, problems);
    for (const char* name :
         {"floor", "ceiling", "wall_left", "wall_right", "wall_back", "wall_front"}) {
        Material& material = scene.materials.emplace_back();
        material.name = name;
        material.reflectance = reflectance;
    }
    const Triple& size = room.size_m.value;
    scene.room.push_back(make_box(Vec3(size[0], size[2], size[1])));
}

// Which key of a figure sets the surface; "" if it is none of a figure's. Figures are built later.
std::string key_of_figure(const SetDescription& set, const std::string& surface) {
    for (const StandInDescription& figure : set.stand_ins) {
        const std::string name = name_or_label(figure.name, figure);
        if (surface == name + " dress") {
            return "dress = { reflectance = …, transmission = … }; a dress has no gloss";
        }
        if (surface == name + " skin") return "skin and gloss";
        if (surface == name + " hair") return "hair";
    }
    return "";
}

void apply_surfaces(const SetDescription& set, Scene& scene, Problems& problems) {
    std::map<std::string, Place> seen;
    for (const SurfaceDescription& surface : set.surfaces) {
        const Field<std::string>& name = surface.name;
        if (!check_written(name, "give the name of the surface in the model", problems)) continue;
        const auto [earlier, is_new] = seen.emplace(name.value, name.place);
        if (!is_new) {
            problems.add(name.place,
                         name.key,
                         "is used twice, first in line " + std::to_string(earlier->second.line));
            continue;
        }
        const std::string key = key_of_figure(set, name.value);
        if (!key.empty()) {
            problems.add(
                name.place,
                name.key,
                "is \"" + name.value + "\", of a figure; its [[stand_in]] sets it by " + key);
            continue;
        }
        const MaterialId id = find_surface(name, scene, problems);
        if (id != kNoMaterial) {
            apply_surface(surface, scene.materials[static_cast<size_t>(id)], problems);
        }
    }
}

// Checks that the vertices are finite in metres, and notes an unlikely size.
void check_extent(const RoomDescription& room, const Mesh& mesh, Problems& problems) {
    Bounds bounds;
    for (const Point& p : mesh.positions) {
        if (!is_finite(p)) {
            problems.add(room.model.place, room.model.key, "has vertices that are not finite");
            return;
        }
        bounds.add(p);
    }
    const double across = bounds.diagonal();
    if (across > 300 || across < 0.3) {
        const Field<std::string>& unit = room.units.unit;
        problems.note(unit.place,
                      unit.key,
                      "the room is " + number_text(across) +
                          " m across; if that is wrong, change unit (m, cm, mm, ft, in)");
    }
}

// The triangles of each mesh: the first list is the room, the others are one material of glass
// each.
std::vector<std::vector<int32_t>> split_glass(const ModelDescription& model, const Scene& scene) {
    std::vector<std::vector<int32_t>> parts(model.materials.size() + 1);
    for (size_t i = 0; i < model.triangles.size(); ++i) {
        const int32_t material = model.triangles[i].material;
        const bool glass = material >= 0 && scene.materials[static_cast<size_t>(material)].kind ==
                                                MaterialKind::kGlass;
        parts[glass ? static_cast<size_t>(material) + 1 : 0].push_back(static_cast<int32_t>(i));
    }
    return parts;
}

void build_meshes(const RoomDescription& room,
                  const ModelDescription& model,
                  const ModelAxes& axes,
                  Scene& scene,
                  Problems& problems) {
    // One for each material of the model, then one for faces without a material.
    std::vector<MaterialId> materials(model.materials.size() + 1);
    for (size_t i = 0; i < materials.size(); ++i) materials[i] = static_cast<MaterialId>(i);
    const std::vector<std::vector<int32_t>> parts = split_glass(model, scene);
    for (size_t part = 0; part < parts.size(); ++part) {
        if (parts[part].empty()) continue;
        Mesh mesh = make_mesh(model, parts[part], axes, materials);
        mesh.name = part == 0 ? "room" : model.materials[part - 1].name;
        check_extent(room, mesh, problems);
        if (part > 0) {
            const std::string problem = problem_as_glass(mesh);
            if (!problem.empty()) {
                problems.add(room.model.place,
                             room.model.key,
                             "surface \"" + mesh.name + "\" " + problem +
                                 "; give thin = true for a pane of one face");
            }
            orient_outward(mesh);
        }
        scene.room.push_back(std::move(mesh));
    }
}

void build_model_materials(const ModelDescription& model,
                           const ImageReader& read_image,
                           Scene& scene,
                           Problems& problems) {
    TextureShelf textures(read_image, scene);
    ModelReport report(model.path, problems);
    std::string clamped;
    for (const ModelMaterial& written : model.materials) {
        bool is_clamped = false;
        scene.materials.push_back(build_model_material(written, textures, report, is_clamped));
        if (is_clamped) clamped += (clamped.empty() ? "" : ", ") + written.name;
    }
    scene.materials.emplace_back().name = "no material";  // of faces that name none
    report.finish();
    if (!clamped.empty()) {
        problems.note({model.path},
                      "",
                      "colours are limited to 0 to " + number_text(kMaxReflectance) +
                          ", as no surface reflects all light: " + clamped);
    }
}

void build_model(const SetDescription& set,
                 const ImageReader& read_image,
                 Scene& scene,
                 Problems& problems) {
    const RoomDescription& room = set.room;
    if (room.reflectance.written) {
        problems.add(room.reflectance.place,
                     room.reflectance.key,
                     "belongs to size_m; the model has its own, see [[surface]]");
    }
    const std::optional<ModelDescription> model =
        read_model(room.model, ModelParts::kAll, problems);
    if (!model) return;
    const ModelAxes axes = build_model_axes(room.model, room.units, *model, problems);
    build_model_materials(*model, read_image, scene, problems);
    build_room_parts(set, scene, problems);
    apply_surfaces(set, scene, problems);
    build_meshes(room, *model, axes, scene, problems);
}

// "; there are "floor", "ceiling"", at most twelve.
std::string surfaces_there(const std::vector<std::string>& names) {
    constexpr size_t kMost = 12;
    std::string all;
    for (size_t i = 0; i < std::min(names.size(), kMost); ++i) {
        all += (all.empty() ? "; there are \"" : ", \"") + names[i] + "\"";
    }
    return names.size() > kMost ? all + ", …" : all;
}

}  // namespace

MaterialId find_surface(const Field<std::string>& surface, const Scene& scene, Problems& problems) {
    std::vector<std::string> names;
    for (size_t i = 0; i < scene.materials.size(); ++i) {
        if (scene.materials[i].name == surface.value) return static_cast<MaterialId>(i);
        names.push_back(scene.materials[i].name);
    }
    const std::string nearest = nearest_word(surface.value, names);
    problems.add(
        surface.place,
        surface.key,
        "is \"" + surface.value + "\"; the room has no surface of this name" +
            (nearest.empty() ? surfaces_there(names) : "; did you mean \"" + nearest + "\"?"));
    return kNoMaterial;
}

void build_room(const SetDescription& set,
                const ImageReader& read_image,
                Scene& scene,
                Problems& problems) {
    const RoomDescription& room = set.room;
    if (!room.given) {
        problems.note({set.path}, "room", "is missing; the set is in empty black space");
    } else if (room.model.written == room.size_m.written) {
        problems.add(room.place, "room", "needs exactly one of model and size_m");
    } else if (room.model.given) {
        build_model(set, read_image, scene, problems);
        return;  // without a model there are no surfaces to name
    } else if (room.size_m.given) {
        build_box(room, scene, problems);
    }
    if (room.given && scene.room.empty()) return;  // without a box there are no walls to name
    build_room_parts(set, scene, problems);
    apply_surfaces(set, scene, problems);
}

}  // namespace dapple
