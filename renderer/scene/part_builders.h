// The builders of the parts of a scene, one per kind of table. Each reads descriptions, adds to
// the scene and to the problems, and knows nothing of the others but the scene so far.
#pragma once

#include "base/problems.h"
#include "scene/build_scene.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

Camera build_camera(const CameraDescription& camera, Problems& problems);

// The room's meshes, materials and textures, with [[surface]] on top.
void build_room(const SetDescription& set,
                const ImageReader& read_image,
                Scene& scene,
                Problems& problems);

// Doors and columns, before [[surface]] changes them; of build_room.
void build_room_parts(const SetDescription& set, Scene& scene, Problems& problems);

void build_glasses(const SetDescription& set, Scene& scene, Problems& problems);
void build_fixtures(const SetDescription& set, Scene& scene, Problems& problems);
// After the fixtures, the camera and the room: panels of light on the camera's side of a surface.
void build_windows(const SetDescription& set, Scene& scene, Problems& problems);
// After the fixtures, as diffusers are clipped to them.
void build_boards(const SetDescription& set,
                  const ImageReader& read_image,
                  Scene& scene,
                  Problems& problems);

void build_stand_ins(const SetDescription& set, Scene& scene, Problems& problems);

// Meters and regions; last, as regions name surfaces.
void build_measures(const SetDescription& set, Scene& scene, Problems& problems);

// The material of that name; a problem, with the nearest name, where there is none.
MaterialId find_surface(const Field<std::string>& surface, const Scene& scene, Problems& problems);

// Checks that no closed surface of the room parts a fixture from the camera.
void check_in_room(const SetDescription& set, const Scene& scene, Problems& problems);

}  // namespace dapple
