// Traces all walks of one kind in a pass, on all cores.
#pragma once

#include <atomic>
#include <optional>
#include <vector>

#include "film/meter_film.h"
#include "render/film_sink.h"
#include "render/pixel_lattice.h"
#include "render/pixel_tracer.h"
#include "render/work_watch.h"
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

// The vertices of a pass's light walks that camera walks use: one list for each block of walks, in
// the order of tracing (walk_order.h).
struct KeptVertices {
    std::optional<std::vector<PhotonList>> photons;       // nothing: photons are not kept
    std::optional<std::vector<StoredVertexList>> stored;  // nothing: vertices are not stored
    std::optional<std::vector<BeamList>> beams;           // nothing: no beams are left

    // Adds empty lists for more blocks. Returns the number of the first.
    size_t add_blocks(size_t blocks);

  private:
    size_t blocks_ = 0;
};

// Each function leaves out the blocks of walks that come after `watch` stops the work.

// All light walks of the stage's pass. `kept` may be null.
void trace_light_walks(
    const Stage& stage, LightSink& sink, KeptVertices* kept, TotalCounts& total, WorkWatch& watch);

// The camera walks of each pixel. Their mean is added to the film.
void trace_camera_walks(const Stage& stage,
                        const CameraPlan& plan,
                        FilmSink& sink,
                        TotalCounts& total,
                        WorkWatch& watch);

// The same walks in the lattice's order. Marks the pixels that are traced.
void trace_camera_lattice(const Stage& stage,
                          const CameraPlan& plan,
                          FilmSink& sink,
                          TotalCounts& total,
                          WorkWatch& watch,
                          PixelLattice& lattice);

// The stage's meter walks of each receptor.
void trace_meter_walks(const Stage& stage, MeterFilm& film, TotalCounts& total, WorkWatch& watch);

}  // namespace dapple
