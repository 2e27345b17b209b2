// The driver of the light meters: makes readings of a scene, pass by pass. The walks and weights
// are the same as in a frame.
#pragma once

#include "film/meter_film.h"
#include "render/render_options.h"
#include "scene/scene.h"

namespace dapple {

class World;
struct Setup;

struct MeterResult {
    std::vector<Reading> readings;  // in the scene's order
    Progress progress;
    uint64_t rays = 0;
    uint64_t nonfinite_samples = 0;
    bool stopped_early = false;
};

// Throws StoppedWork if the work is stopped within the first pass.
MeterResult read_meters(const Scene& scene, const World& world, const MeterOptions& options);

// An empty film for the readings of a setup.
MeterFilm make_meter_film(const Setup& setup);

std::vector<Reading> all_readings(const MeterFilm& film);

}  // namespace dapple
