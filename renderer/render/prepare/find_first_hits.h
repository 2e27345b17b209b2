// The surface that the centre of each pixel sees first.
#pragma once

#include "film/film.h"
#include "film/first_hits.h"
#include "geometry/world.h"
#include "render/work_watch.h"
#include "scene/scene.h"
#include "transport/lens.h"

namespace dapple {

// Throws StoppedWork if `watch` stops the work.
FirstHits find_first_hits(const Scene& scene,
                          const World& world,
                          const Lens& lens,
                          WorkWatch& watch);

// The surface's colour at a point that has a material, linear Rec.709; white for glass.
Rgb surface_colour(const Scene& scene, const SurfacePoint& at);

// The pixels of each region of the scene, by the surfaces that they see first.
std::vector<PixelSet> find_region_pixels(const Scene& scene, const FirstHits& first_hits);

}  // namespace dapple
