#include "render/trace_pass.h"

#include <algorithm>

#include "render/pass_limits.h"

namespace dapple {

namespace {

// Measures the time and the rays of each part of a pass: since the last call, or since the start.
class PartTimer {
  public:
    explicit PartTimer(const TotalCounts& total) : total_(total), last_rays_(total.rays) {}

    double take_seconds() {
        const double now = clock_.seconds();
        const double part = now - last_s_;
        last_s_ = now;
        return part;
    }
    uint64_t take_rays() {
        const uint64_t now = total_.rays;
        const uint64_t part = now - last_rays_;
        last_rays_ = now;
        return part;
    }

  private:
    const TotalCounts& total_;
    Clock clock_;
    double last_s_ = 0;
    uint64_t last_rays_;
};

// What the camera walks of a pass find from its light walks.
struct SortedVertices {
    std::optional<PhotonMap> photons;
    std::optional<StoredVertices> stored;

    SortedVertices(KeptVertices& kept, const FramePass& pass) {
        if (kept.photons) photons.emplace(std::move(*kept.photons), pass.merge_radius);
        if (kept.stored) stored.emplace(*kept.stored, pass.stage.connections->light_cells());
    }
};

void trace_camera(FramePass& pass,
                  const SortedVertices& vertices,
                  const std::vector<uint8_t>& pixel_walks,
                  FilmSink& sink,
                  TotalCounts& total,
                  WorkWatch& watch) {
    Stage stage = pass.stage;
    stage.photons = vertices.photons ? &*vertices.photons : nullptr;
    stage.stored = vertices.stored ? &*vertices.stored : nullptr;
    if (pass.lattice) {
        trace_camera_lattice(stage, pixel_walks, sink, total, watch, *pass.lattice);
    } else {
        trace_camera_walks(stage, pixel_walks, sink, total, watch);
    }
}

// Puts the pass on the films, or drops it. Returns the share of the pixels that were put there.
double end_pass(const FramePass& pass, const PassFilms& films, const WorkWatch& watch) {
    const bool finished = !watch.stopped();
    const bool shows_part = pass.lattice && pass.lattice->covers_frame();
    if (!finished && !shows_part) {
        films.film.drop_pass();
        films.meters.drop_pass();
        return 0;
    }
    films.film.end_pass();
    films.meters.end_pass();
    if (finished) return 1;
    films.film.fill_pixels(pass.lattice->nearest());
    return pass.lattice->share();
}

}  // namespace

double trace_pass(FramePass& pass,
                  const std::vector<uint8_t>& pixel_walks,
                  const PassFilms& films,
                  TotalCounts& total,
                  Effort& effort,
                  WorkWatch& watch) {
    PartTimer part(total);
    films.film.begin_pass(pass.wavelengths);
    films.meters.begin_pass(pass.wavelengths);
    films.sink.set_radii(pass.splat_radii);

    KeptVertices kept;
    if (pass.merge_radius > 0) kept.photons.emplace();
    if (pass.stage.connections) kept.stored.emplace();
    trace_light_walks(pass.stage, films.sink, &kept, total, watch);
    effort.light_s += part.take_seconds();
    effort.light_rays += part.take_rays();

    // Before the camera walks, so that the readings are whole if these are stopped.
    trace_meter_walks(pass.stage, films.meters, total, watch);
    effort.meter_s += part.take_seconds();
    effort.meter_rays += part.take_rays();

    watch.start_step(WorkStep::kSorting);
    if (watch.next_block()) {
        const SortedVertices vertices(kept, pass);
        effort.photon_map_s += part.take_seconds();
        if (vertices.photons) {
            effort.photon_bytes = std::max(effort.photon_bytes, vertices.photons->bytes());
        }
        trace_camera(pass, vertices, pixel_walks, films.sink, total, watch);
        effort.camera_s += part.take_seconds();
        effort.camera_rays += part.take_rays();
    }
    const double share = end_pass(pass, films, watch);
    effort.film_s += part.take_seconds();
    return share;
}

}  // namespace dapple
