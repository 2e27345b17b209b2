// The speed of passes, and that of the ray tracing kernels alone.
//
// The rays of one pass are recorded in order and traced again with nothing in between: the raw
// rate. Passes and replays take turns in one run, and medians are compared, so that other load on
// the machine affects both. On one thread splats and the gathering of photons are timed too
// (parts.h).
#pragma once

#include <optional>

#include "geometry/world.h"
#include "parts.h"
#include "render/render_frame.h"

namespace dapple {

// Parts of a pass on one thread.
struct PartShares {
    PartTimes of_time;
    uint64_t splat_count = 0;
};

struct Rates {
    int threads = 0;
    double passes_per_s = 0;
    double rays_per_s = 0;
    double raw_rays_per_s = 0;
    // Share of the kernels' speed. Also the kernels' share of a pass's time, because both trace the
    // same rays.
    double share_of_raw() const { return rays_per_s / raw_rays_per_s; }
    // Rays of one pass.
    uint64_t light_steps = 0, light_joins = 0;    // closest hits and shadow rays of light walks
    uint64_t camera_steps = 0, camera_joins = 0;  // the same of camera and meter walks
    size_t photon_bytes = 0;                      // of one pass
    size_t film_bytes_per_group = 0;              // light group
    // Shares of a pass's time by stage.
    double light = 0, photon_map = 0, camera = 0, meters = 0, film = 0;
    // Shares by kind of work; only on one thread and with light walks.
    std::optional<PartShares> parts;
};

Rates measure_rates(const Scene& scene, World& world, const RenderOptions& options, int repeats);

}  // namespace dapple
