// One pass over the frame: light walks, their photons in order, camera walks, meter walks.
#pragma once

#include "film/film.h"
#include "film/meter_film.h"
#include "render/film_sink.h"
#include "render/frame_pass.h"
#include "render/trace_walks.h"

namespace dapple {

// What the passes of one render traced, and how long their parts took.
struct Effort {
    uint64_t light_rays = 0, camera_rays = 0, meter_rays = 0;
    size_t photon_bytes = 0;  // of the pass with the most photons
    double light_s = 0, photon_map_s = 0, camera_s = 0, meter_s = 0, film_s = 0;
};

// Where a pass leaves what it finds.
struct PassFilms {
    Film& film;
    MeterFilm& meters;
    FilmSink& sink;  // writes to both
};

void trace_pass(FramePass& pass,
                const std::vector<uint8_t>& pixel_walks,
                const PassFilms& films,
                TotalCounts& total,
                Effort& effort);

}  // namespace dapple
