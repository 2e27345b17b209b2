// All walks of one kind in a pass, shared out to all cores.
#pragma once

#include <atomic>

#include "film/meter_film.h"
#include "render/film_sink.h"
#include "transport/light_walk.h"

namespace dapple {

struct TotalCounts {
    std::atomic<uint64_t> rays = 0;
    std::atomic<uint64_t> nonfinite = 0;

    void add(const WalkCounts& counts) {
        rays += counts.rays;
        nonfinite += counts.nonfinite;
    }
};

// All light walks of the stage's pass. With `photons`, their vertices are kept there: a list for
// each block of walks, in the order they are traced in (walk_order.h).
void trace_light_walks(const Stage& stage,
                       LightSink& sink,
                       std::vector<PhotonList>* photons,
                       TotalCounts& total);

// Camera walks, `walks` of them for each pixel, in the first pass fewer (schedule.h); their mean
// goes to the film.
void trace_camera_walks(const Stage& stage,
                        const std::vector<uint8_t>& walks,
                        FilmSink& sink,
                        TotalCounts& total);

// The stage's meter walks of each receptor.
void trace_meter_walks(const Stage& stage, MeterFilm& film, TotalCounts& total);

}  // namespace dapple
