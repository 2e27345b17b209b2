// Options of the driver: for a frame, and for the meters alone.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "film/checkpoint.h"
#include "film/fine_points.h"
#include "math/vec.h"
#include "render/pass_limits.h"
#include "render/work_watch.h"

namespace dapple {

class MeterFilm;
struct Pilots;
struct RenderResult;

enum class Transport {
    kFull,       // kWalks, and photons merged with camera walks
    kWalks,      // light walks and camera walks under one set of weights
    kCamera,     // camera walks alone, with next-event estimation
    kPartition,  // each path by one technique, without weights; slower; checks the other kinds
};

// What the pixels of an earlier frame saw (RenderOptions::finer).
struct KeptSight {
    std::shared_ptr<const FinePoints> points;
    // Of all that has moved since (World::changed_bounds). Pixels whose ray meets none of them, and
    // that see a surface straight, see the same. Camera and materials must be as they were.
    std::vector<Bounds> changed;
};

struct RenderOptions : PassLimits {
    uint64_t seed = 1;  // same seed, same passes: same film, any thread count
    int threads = 0;    // 0: all
    Transport transport = Transport::kFull;
    int max_bounces = 128;
    // Light walks of all fixtures together in one pass. 0: depends on the number of fixtures,
    // because each fixture makes camera walks more expensive (E68).
    double light_walks_per_pixel = 0;
    bool aims_light_walks = true;  // aims some light walks at the glass in their beam
    // Of an earlier frame of much the same scene: they steer this one in place of its own, which
    // saves time and can leave more noise. Not used if the number of fixtures differs.
    std::shared_ptr<const Pilots> pilots;
    bool reads_meters = true;
    // Also looks what the pixels see of a frame with so many times as many across, an odd number;
    // 1: does not. For clean/finer_frame.h.
    int finer = 1;
    // Whether images of lamps in glass and mirrors are searched before the first pass
    // (glint_map.h). Without, they are specks more often.
    bool finds_glints = true;
    KeptSight kept_sight;          // nullptr: all pixels look
    std::vector<bool> dark;        // by fixture: true leaves its light out; empty: none
    double footprint_px = 2.5;     // radius of a splat in the first pass; 0: one pixel, no blur
    double merge_radius_px = 1.5;  // of photon merging in the first pass
    // With false, the time limit may end the render within its first pass, which may then be on the
    // film in part or not at all (RenderResult).
    bool finishes_first_pass = true;
    // The number of the first pass, from 0. A film of later passes is a part of a longer one
    // (film/merge_films.h).
    int64_t first_pass = 0;
    // A film of the same scene and options to continue: passes that it lacks are made, the lowest
    // number first. `passes` includes its passes.
    std::optional<Checkpoint> resume_from;
    // Called after every pass with the result so far; false stops the render and keeps the result.
    std::function<bool(const Progress&, const RenderResult&)> on_pass;
    // Called a few times per second by any thread, one at a time. False stops the render at once; a
    // pass that is not finished is dropped.
    std::function<bool(const WorkPart&)> on_part;
    double part_every_s = WorkWatch::kReportEvery;  // between calls of on_part
};

// `noise_percent` applies to each meter: passes continue until every reading is that precise.
struct MeterOptions : PassLimits {
    uint64_t seed = 1;
    int threads = 0;                         // 0: all
    Transport transport = Transport::kFull;  // same as kWalks: meters do not use photons
    int max_bounces = 256;                   // surfaces that scatter a path between lamp and meter
    int meter_walks = 2048;                  // per meter and pass
    // Light walks of all fixtures together in one pass, for each meter walk: the walks that are
    // joined to the meters, and all walks, if any beam meets glass. Walks that are not joined only
    // find light that falls on receptors through glass.
    double joined_per_meter_walk = 4;
    double light_walks_per_meter_walk = 64;
    bool aims_at_meters = true;  // aims light walks through glass at the meters
    // Called after every pass; false stops the passes and keeps the readings so far.
    std::function<bool(const Progress&, const MeterFilm&)> on_pass;
    std::function<bool(const WorkPart&)> on_part;  // as for a frame
};

}  // namespace dapple
