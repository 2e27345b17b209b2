// The media in which walks start: a lens can be under water, a lamp inside a block of acrylic.
//
// A closed boundary encloses a point if a ray from the point leaves it once more often than it
// enters it. Three rays are traced and the median of their counts is used, so that one ray that
// grazes an edge does no harm.
//
// The lens has air behind it, like a camera in its housing. Of the radiance L in a medium of index
// n it passes the basic radiance (Nicodemus 1963)
//   L / n²                                                                                  (E73)
// so that a uniform field of light looks the same from inside water as from outside. The port is a
// dome around the lens. It does not bend light, and its own reflections are left out.
#pragma once

#include <vector>

#include "geometry/world.h"
#include "transport/media.h"

namespace dapple {

struct StartMedia {
    MediumStack lens;
    std::vector<MediumStack> lamps;  // per fixture; empty: all lamps are in air
};

MediumStack find_media(const Scene& scene, const World& world, const Point& point);
StartMedia find_start_media(const Scene& scene, const World& world);

}  // namespace dapple
