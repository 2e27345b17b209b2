// What a lamp's light meets first.
#pragma once

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "scene/scene.h"

namespace dapple {

// The first surface behind panes and cut-outs. The kind is Lambertian if the light meets nothing or
// a lamp.
struct BeamEnd {
    MaterialKind kind = MaterialKind::kLambertian;
    Point position{0};
};

BeamEnd find_beam_end(const Scene& scene, const World& world, const LampLight& light);

}  // namespace dapple
