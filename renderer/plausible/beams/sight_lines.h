// Straight lines through a set: what stops light on them, what a fixture's beam reaches, what the
// lens sees. Glass and cloth let light pass.
#pragma once

#include <optional>

#include "fixtures/emitter.h"
#include "plausible/bodies/crossings.h"
#include "plausible/staged_set.h"

namespace dapple {

// Whether the surface stops light. Lamps do not.
bool blocks_light(const Scene& scene, const SurfacePoint& at);

// The first thing on the way that stops light; nothing if the way is clear. `skipped`: this
// fixture's lamp and stand do not count.
std::optional<Thing> stop_between(const StagedSet& set,
                                  const Point& from,
                                  const Point& to,
                                  int skipped = -1);

// How far outside the field of a spot's beam the point is, m; 0 inside. Of another fixture or of a
// photometric file: 0 where its light may go, else infinite.
float outside_field(const Fixture& f, const Emitter& emitter, const Point& p);

bool is_in_frame(const Lens& lens, const Point& p);
// Whether the point is in the frame and nothing that stops light is before it.
bool lens_sees(const StagedSet& set, const Point& p);

}  // namespace dapple
