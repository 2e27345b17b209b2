// Where a cage crosses surfaces, and which closed bodies a point is in.
#pragma once

#include <functional>
#include <map>
#include <vector>

#include "geometry/world.h"
#include "plausible/bodies/body_cage.h"

namespace dapple {

// Which surfaces count.
using Counts = std::function<bool(const Thing&, const SurfacePoint&)>;

// The first surface that counts along the ray; false where there is none.
bool first_counting(
    const World& world, Ray ray, const Counts& counts, Thing& thing, SurfacePoint& at);

// Whether a chord of the cage, moved by `by`, crosses a surface that counts.
bool crosses(const World& world, const BodyCage& cage, const Vec3& by, const Counts& counts);

struct Crossed {
    int chords = 0;
    MaterialId material = kNoMaterial;  // of one of the surfaces
};

// The things that the cage crosses. A chord counts for the first one that it meets from either end.
std::map<Thing, Crossed> things_crossed(const World& world,
                                        const BodyCage& cage,
                                        const Counts& counts);

// The closed bodies that the point is in, except the room. A ray from inside leaves a body once
// more often than it enters it; two of three rays must agree.
std::vector<Thing> things_around(const World& world, const Point& point);

}  // namespace dapple
