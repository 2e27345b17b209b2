// The driver: a scene to a film, pass by pass.
//
// Read `render_frame` first: it is the table of contents of the renderer.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>

#include "film/checkpoint.h"
#include "film/film.h"
#include "film/first_hits.h"
#include "film/meter_film.h"
#include "render/pass_limits.h"
#include "scene/scene.h"

namespace dapple {

enum class Transport {
    kFull,       // as kWalks, and photons merged with camera walks
    kWalks,      // light walks and camera walks under one set of weights
    kCamera,     // camera walks alone, with next-event estimation
    kPartition,  // each path by one technique, without weights: slower, and the others' check
};

struct RenderResult;

struct RenderOptions : PassLimits {
    uint64_t seed = 1;  // same seed, same passes: same film, any thread count
    int threads = 0;    // 0: all
    Transport transport = Transport::kFull;
    int max_bounces = 128;
    // In one pass, all fixtures together. 0: by the number of fixtures, for each makes the camera
    // walks dearer (E52).
    double light_walks_per_pixel = 0;
    bool aims_light_walks = true;  // some of them at the glass in their beam
    double footprint_px = 2.5;     // radius of a splat in the first pass; 0: one pixel, no blur
    double merge_radius_px = 1.5;  // of photon merging in the first pass
    // A film of the same scene and options to go on from; `passes` counts its passes too.
    std::optional<Checkpoint> go_on_from;
    // Called after every pass with what there is so far; false stops the render and keeps it.
    std::function<bool(const Progress&, const RenderResult&)> on_pass;
};

// What the passes of one call did, and how long their parts took.
struct Effort {
    uint64_t light_rays = 0, camera_rays = 0, meter_rays = 0;
    size_t photon_bytes = 0;  // of the pass that had most
    double light_s = 0, photon_map_s = 0, camera_s = 0, meter_s = 0, film_s = 0;
};

struct RenderResult {
    Film film;
    MeterFilm meters;
    FirstHits first_hits;
    Progress progress;
    Effort effort;
    uint64_t rays = 0;
    uint64_t nonfinite_samples = 0;
    bool stopped_early = false;  // by on_pass
};

class World;
RenderResult render_frame(const Scene& scene, const World& world, const RenderOptions& options);

}  // namespace dapple
