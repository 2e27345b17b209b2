// The builders of the parts of a scene, one for each kind of table. A builder reads descriptions
// and the scene so far, and adds to the scene and to the problems.
#pragma once

#include "base/problems.h"
#include "scene/build_scene.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

Camera build_camera(const CameraDescription& camera, Problems& problems);

// The room's meshes, materials and textures, as changed by [[surface]].
void build_room(const SetDescription& set,
                const ImageReader& read_image,
                Scene& scene,
                Problems& problems);

// Doors and columns. build_room calls it before it applies [[surface]].
void build_room_parts(const SetDescription& set, Scene& scene, Problems& problems);

void build_glasses(const SetDescription& set, Scene& scene, Problems& problems);
void build_fixtures(const SetDescription& set, Scene& scene, Problems& problems);
// Panels of light on the camera's side of a surface. After the fixtures, the camera and the room.
void build_windows(const SetDescription& set, Scene& scene, Problems& problems);
// After the fixtures, because diffusers are clipped to them.
void build_boards(const SetDescription& set,
                  const ImageReader& read_image,
                  Scene& scene,
                  Problems& problems);

void build_stand_ins(const SetDescription& set, Scene& scene, Problems& problems);

void build_haze(const SetDescription& set, Scene& scene, Problems& problems);

// Meters and regions. Last, because regions name surfaces.
void build_measures(const SetDescription& set, Scene& scene, Problems& problems);

// The material of that name. A name that the room does not have is a problem.
MaterialId find_surface(const Field<std::string>& surface, const Scene& scene, Problems& problems);

// Checks that no closed surface of the room separates a fixture or a meter from the camera.
void check_in_room(const SetDescription& set, const Scene& scene, Problems& problems);

}  // namespace dapple
