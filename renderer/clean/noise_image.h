// What the film says about its own noise, per pixel.
#pragma once

#include "clean/plane.h"
#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

// An image that has no signal and the noise of the film's luminance, in cd/m². Neighbouring pixels
// share noise in it as they do on the film.
Plane make_noise_image(const Film& film, const SeenPoints& seen);

}  // namespace dapple
