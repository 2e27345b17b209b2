// The driver: renders a scene to a film, pass by pass.
//
// Read `render_frame` first: it is the table of contents of the renderer.
#pragma once

#include "film/film.h"
#include "film/fine_points.h"
#include "film/first_hits.h"
#include "film/meter_film.h"
#include "film/seen_points.h"
#include "render/render_options.h"
#include "render/trace_pass.h"
#include "scene/scene.h"

namespace dapple {

struct RenderResult {
    Film film;
    MeterFilm meters;
    FirstHits first_hits;
    SeenPoints seen;  // for the clean frame
    FinePoints fine;  // empty if the options do not ask for it
    std::shared_ptr<const Pilots> pilots;
    Progress progress{};
    Effort effort{};
    uint64_t rays = 0;  // of all passes on the film
    uint64_t nonfinite_samples = 0;
    bool stopped_early = false;  // by on_pass or on_part
    // Below 1: no pass is finished. The film has this share of the first pass's camera walks, and
    // pixels without them show their neighbours.
    double first_pass_share = 1;
};

class World;
// Throws StoppedWork if the work is stopped before the film has anything to show.
RenderResult render_frame(const Scene& scene, const World& world, const RenderOptions& options);

}  // namespace dapple
