// The glare of a film: what the lens adds to the picture, made after the film and apart from it.
//
// Read `make_glare` first. The walks have no part in it: the film stays as it is.
#pragma once

#include "develop/glare_frame.h"
#include "film/film.h"
#include "geometry/world.h"
#include "scene/scene.h"

namespace dapple {

// Nothing is there if the camera has no lens of glass and no veil.
GlareFrame make_glare(const Scene& scene, const World& world, const Film& film);

}  // namespace dapple
