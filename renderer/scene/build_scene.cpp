#include "scene/build_scene.h"

#include <algorithm>

#include "scene/build_material.h"
#include "scene/defaults.h"
#include "scene/named_places.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

bool has_body(const Fixture& f) {
    return f.housing_diameter > 0 || f.barn_doors || f.snoot_diameter > 0 || f.stand;
}

// All housings have the same paint. It is added last, so that no name in the set file refers to it.
void add_housing_material(Scene& scene) {
    const bool any = std::any_of(scene.fixtures.begin(), scene.fixtures.end(), has_body);
    if (!any) return;
    Material paint;
    paint.name = "housing";
    paint.reflectance = Rgb(kHousingReflectance);
    scene.housing_material = add_material(scene, std::move(paint));
}

}  // namespace

Scene build_scene(const SetDescription& written,
                  const ImageReader& read_image,
                  Problems& problems) {
    Scene scene;
    if (!written.parsed) return scene;  // the problem is reported already
    SetDescription set = written;
    scene.title = set.title.value;
    build_room(set, read_image, scene, problems);
    build_glasses(set, scene, problems);
    resolve_named_points(set, scene, problems);
    scene.camera = build_camera(set.camera, problems);
    build_fixtures(set, scene, problems);
    build_windows(set, scene, problems);
    build_boards(set, read_image, scene, problems);
    build_stand_ins(set, scene, problems);
    build_haze(set, scene, problems);
    build_measures(set, scene, problems);
    check_in_room(set, scene, problems);
    add_housing_material(scene);
    return scene;
}

}  // namespace dapple
