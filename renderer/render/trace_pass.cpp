#include "render/trace_pass.h"

#include <algorithm>

#include "render/pass_limits.h"
#include "render/pass_vertices.h"

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

// `stage`: the pass's, with the vertices of its light walks.
void trace_camera(const Stage& stage,
                  std::optional<PixelLattice>& lattice,
                  const CameraPlan& plan,
                  FilmSink& sink,
                  TotalCounts& total,
                  WorkWatch& watch) {
    if (lattice) {
        trace_camera_lattice(stage, plan, sink, total, watch, *lattice);
    } else {
        trace_camera_walks(stage, plan, sink, total, watch);
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
    if (films.glow) {
        const auto taken = pass.lattice ? pass.lattice->taken() : std::span<const uint8_t>();
        films.glow->put_on(films.film, pass.glow_spread, taken);
    }
    films.film.end_pass();
    films.meters.end_pass();
    if (finished) return 1;
    films.film.fill_pixels(pass.lattice->nearest());
    return pass.lattice->share();
}

}  // namespace

double trace_pass(FramePass& pass,
                  const CameraPlan& plan,
                  const PassFilms& films,
                  TotalCounts& total,
                  Effort& effort,
                  WorkWatch& watch) {
    PartTimer part(total);
    const uint64_t rays_before = total.rays;
    const uint64_t nonfinite_before = total.nonfinite;
    films.film.begin_pass(pass.wavelengths);
    films.meters.begin_pass(pass.wavelengths);
    films.sink.set_radii(pass.splat_radii);

    PassVertices vertices(pass);
    trace_light_walks(pass.stage, films.sink, &vertices.kept(), total, watch);
    effort.light_s += part.take_seconds();
    effort.light_rays += part.take_rays();

    // Before the camera walks, so that the readings are whole if these are stopped.
    Stage stage = pass.stage;
    vertices.index_beams(stage);
    trace_meter_walks(stage, films.meters, total, watch);
    effort.meter_s += part.take_seconds();
    effort.meter_rays += part.take_rays();

    watch.start_step(WorkStep::kSorting);
    if (watch.next_block()) {
        vertices.index(pass, stage);
        effort.photon_map_s += part.take_seconds();
        effort.photon_bytes = std::max(effort.photon_bytes, vertices.photon_bytes());
        trace_camera(stage, pass.lattice, plan, films.sink, total, watch);
        effort.camera_s += part.take_seconds();
        effort.camera_rays += part.take_rays();
    }
    const double share = end_pass(pass, films, watch);
    if (share > 0)
        films.film.add_counts(total.rays - rays_before, total.nonfinite - nonfinite_before);
    effort.film_s += part.take_seconds();
    return share;
}

}  // namespace dapple
