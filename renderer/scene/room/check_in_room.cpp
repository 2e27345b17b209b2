// Checks that no wall separates a fixture or a meter from the camera.
//
// In a box room the camera and all things must be between the walls, which have no openings. In a
// model, no closed opaque part may contain the camera or a thing but not the other, as when a
// fixture is inside a wall or outside a room without openings. (Several parts that enclose
// something together are found with rays, in geometry/check_placement.h.)
#include <algorithm>

#include "scene/checks.h"
#include "scene/models/check_mesh.h"
#include "scene/part_builders.h"
#include "scene/room/likely_place.h"

namespace dapple {

namespace {

// `at` is the position in the scene, which is 0 if the field has a problem already.
void check_in_box(const Field<Triple>& field,
                  const Point& at,
                  const Bounds& box,
                  Problems& problems) {
    static const char* const kAxes[] = {"x", "y", "z"};
    if (!field.given) return;
    for (int a = 0; a < 3; ++a) {
        if (at[a] >= box.low[a] && at[a] <= box.high[a]) continue;
        problems.add(field.place,
                     field.key,
                     std::string("is outside the room: ") + kAxes[a] + " is " + number_text(at[a]) +
                         "; must be from " + number_text(box.low[a]) + " to " +
                         number_text(box.high[a]) + likely_place_text(field.value, box));
        return;
    }
}

void check_mains_in_box(const SetDescription& set,
                        const Scene& scene,
                        const Bounds& box,
                        Problems& problems) {
    const Field<std::vector<Pair>>& mains = set.mains.written ? set.mains : set.power.mains;
    for (const Vec2& at : scene.power.mains) {
        if (at.x >= box.low.x && at.x <= box.high.x && at.y >= box.low.z && at.y <= box.high.z) {
            continue;
        }
        problems.add(mains.place,
                     mains.key,
                     "has [" + number_text(at.x) + ", " + number_text(at.y) +
                         "], outside the room; x must be from " + number_text(box.low.x) + " to " +
                         number_text(box.high.x) + " and z from " + number_text(box.low.z) +
                         " to " + number_text(box.high.z));
    }
}

bool lets_light_pass(const Material& m) {
    return m.kind == MaterialKind::kSheet || m.kind == MaterialKind::kGlass ||
           m.kind == MaterialKind::kThinGlass || m.opacity < 1 || m.opacity_texture >= 0;
}

bool is_opaque(const Scene& scene, const Mesh& mesh, const Shell& shell) {
    return std::none_of(shell.triangles.begin(), shell.triangles.end(), [&](uint32_t i) {
        return lets_light_pass(scene.materials[static_cast<size_t>(mesh.materials[i])]);
    });
}

// A fixture or a meter, which must be on the camera's side of every closed surface.
struct Standing {
    const Field<Triple>& field;
    Point position;
    bool reported = false;
};

std::vector<Standing> all_standing(const SetDescription& set, const Scene& scene) {
    std::vector<Standing> all;
    for (size_t i = 0; i < set.fixtures.size(); ++i) {
        all.push_back({set.fixtures[i].position, scene.fixtures[i].position});
    }
    for (size_t i = 0; i < scene.meters.size(); ++i) {
        all.push_back({set.meters[i].position, scene.meters[i].position});
    }
    return all;
}

void check_not_separated(const Mesh& mesh,
                         const SetDescription& set,
                         const Scene& scene,
                         Problems& problems) {
    std::vector<Standing> all = all_standing(set, scene);
    for (const Shell& shell : find_shells(mesh)) {
        const bool holds_camera = contains(mesh, shell, scene.camera.position);
        for (Standing& thing : all) {
            const bool separated = contains(mesh, shell, thing.position) != holds_camera;
            if (thing.reported || !thing.field.given || !separated) continue;
            if (!is_opaque(scene, mesh, shell) || !is_closed(mesh, shell)) break;
            const MaterialId material = mesh.materials[shell.triangles.front()];
            problems.add(thing.field.place,
                         thing.field.key,
                         "is separated from the camera by \"" +
                             scene.materials[static_cast<size_t>(material)].name +
                             "\", a closed surface around one of the two");
            thing.reported = true;
        }
    }
}

}  // namespace

void check_in_room(const SetDescription& set, const Scene& scene, Problems& problems) {
    if (scene.room.empty()) return;
    const Mesh& mesh = scene.room.front();
    if (!set.camera.position.given) return;
    if (!set.room.size_m.given) return check_not_separated(mesh, set, scene, problems);
    Bounds box;
    for (const Point& p : mesh.positions) box.add(p);
    check_mains_in_box(set, scene, box, problems);
    check_in_box(set.camera.position, scene.camera.position, box, problems);
    for (size_t i = 0; i < set.fixtures.size(); ++i) {
        check_in_box(set.fixtures[i].position, scene.fixtures[i].position, box, problems);
    }
    for (size_t i = 0; i < scene.stand_ins.size(); ++i) {
        check_in_box(set.stand_ins[i].position, scene.stand_ins[i].position, box, problems);
    }
    for (size_t i = 0; i < scene.meters.size(); ++i) {
        check_in_box(set.meters[i].position, scene.meters[i].position, box, problems);
    }
}

}  // namespace dapple
