// The driver of the light meters: a scene to what they read, pass by pass. Same walks and weights
// as the frame's, without the frame.
#pragma once

#include <cstdint>
#include <functional>

#include "film/meter_film.h"
#include "render/render_frame.h"

namespace dapple {

class World;

struct MeterOptions : PassLimits {
    uint64_t seed = 1;
    int threads = 0;                         // 0: all
    Transport transport = Transport::kFull;  // merging is for frames: as kWalks
    int max_bounces = 256;                   // surfaces that scatter a path between lamp and meter
    int meter_walks = 2048;                  // per meter and pass
    // Light walks of all fixtures together, in one pass, for each walk of a meter: those joined to
    // the meters; and those that only look for ways through glass, where any beam meets it.
    double joined_per_meter_walk = 4;
    double light_walks_per_meter_walk = 64;
    // Called after every pass; false stops and keeps what is read.
    std::function<bool(const Progress&, const MeterFilm&)> on_pass;
};

struct MeterResult {
    std::vector<Reading> readings;  // in the scene's order
    Progress progress;
    uint64_t rays = 0;
    uint64_t nonfinite_samples = 0;
    bool stopped_early = false;
};

// `noise_percent` holds for each meter: passes go on until every reading is as sure as that.
MeterResult read_meters(const Scene& scene, const World& world, const MeterOptions& options);

// An empty film for the readings of a setup.
struct Setup;
MeterFilm make_meter_film(const Setup& setup);

std::vector<Reading> all_readings(const MeterFilm& film);

}  // namespace dapple
