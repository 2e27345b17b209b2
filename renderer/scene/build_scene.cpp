#include "scene/build_scene.h"

#include "scene/scene_parts.h"

namespace dapple {

Scene build_scene(const SetDescription& set, const ImageReader& read_image, Problems& problems) {
    Scene scene;
    if (!set.parsed) return scene;  // its one problem is told already
    scene.title = set.title.value;
    scene.camera = build_camera(set.camera, problems);
    build_room(set, read_image, scene, problems);
    build_glasses(set, scene, problems);
    build_boards(set, scene, problems);
    build_fixtures(set, scene, problems);
    build_measures(set, scene, problems);
    check_not_rendered(set, scene, problems);
    return scene;
}

}  // namespace dapple
