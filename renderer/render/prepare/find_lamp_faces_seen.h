// The pixels that show a lamp's own face: its light is no light on the set, so judging leaves these
// pixels out.
//
// Points on each face are projected through the middle of the lens. Where the face is the first
// thing that the lens sees there, the pixels around are marked: those within one pixel, within the
// distance of neighbouring points, and within half of the blur of a thing out of focus,
//   c = (f/N) f |d - s| / (d (s - f))                                                     (E161)
// c diameter of the blur on the sensor, f focal length, N f-number, s distance of the focus, d of
// the face along the view axis, all in m. So a face smaller than a pixel is found too. A face that
// is seen in a mirror or through glass is not marked.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/world.h"
#include "scene/scene.h"
#include "transport/lens.h"

namespace dapple {

// By pixel, the index of a fixture; -1: no face. Windows are part of the picture and not marked.
std::vector<int32_t> find_lamp_faces_seen(const Scene& scene, const World& world, const Lens& lens);

// Diameter of the blur on the sensor, m, of a thing at `depth`; 0 if everything is sharp.
double blur_diameter(const Camera& camera, double depth);

}  // namespace dapple
