// One pass over the frame: light walks, meter walks, the map of photons, camera walks.
//
// A pass that is stopped leaves the films as they were before. The exception is a pass in the order
// of a lattice: once it covers the frame, the film keeps what it has traced, and pixels that were
// not traced take the sums of their nearest one that was.
#pragma once

#include "film/film.h"
#include "film/meter_film.h"
#include "render/film_sink.h"
#include "render/frame_pass.h"
#include "render/trace_walks.h"

namespace dapple {

// The rays and the seconds of each part of the passes of one render.
struct Effort {
    uint64_t light_rays = 0, camera_rays = 0, meter_rays = 0;
    size_t photon_bytes = 0;  // of the pass with the most photons
    double light_s = 0, photon_map_s = 0, camera_s = 0, meter_s = 0, film_s = 0;
};

// The films that a pass adds to.
struct PassFilms {
    Film& film;
    MeterFilm& meters;
    FilmSink& sink;            // adds to both films
    HazeGlow* glow = nullptr;  // filled by the sink; nullptr: no glow is kept apart
};

// Returns the share of the pixels whose camera walks are on the film: 1 if the pass is finished, 0
// if the films are as before.
double trace_pass(FramePass& pass,
                  const CameraPlan& plan,
                  const PassFilms& films,
                  TotalCounts& total,
                  Effort& effort,
                  WorkWatch& watch);

}  // namespace dapple
