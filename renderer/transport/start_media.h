// The media in which walks begin: a lens under water, a lamp inside a block of acrylic.
//
// A closed boundary goes round a point when a ray from there leaves it once more often than it
// enters it. Three rays are asked and the middle one of their answers counts, so that one that
// grazes an edge does no harm.
//
// A lens is taken to have air behind it, as a camera in its housing has: of the radiance L in a
// medium of index n it passes the basic radiance (Nicodemus 1963)
//   L / n²                                                                                  (E63)
// so that a uniform field of light looks the same from inside water as from outside. The port is a
// dome round the lens: it bends nothing, and its own reflections are left out.
#pragma once

#include <vector>

#include "geometry/world.h"
#include "transport/media.h"

namespace dapple {

struct StartMedia {
    MediumStack lens;
    std::vector<MediumStack> lamps;  // per fixture; none: all in air
};

MediumStack find_media(const Scene& scene, const World& world, const Point& point);
StartMedia find_start_media(const Scene& scene, const World& world);

}  // namespace dapple
