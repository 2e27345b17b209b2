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

}  // namespace

void trace_pass(FramePass& pass,
                const std::vector<uint8_t>& pixel_walks,
                const PassFilms& films,
                TotalCounts& total,
                Effort& effort) {
    PartTimer part(total);
    films.film.begin_pass(pass.wavelengths);
    films.meters.begin_pass(pass.wavelengths);
    films.sink.set_radii(pass.splat_radii);

    PassVertices vertices(pass);
    trace_light_walks(pass.stage, films.sink, &vertices.kept(), total);
    effort.light_s += part.take_seconds();
    effort.light_rays += part.take_rays();

    vertices.index(pass, pass.stage);
    effort.photon_map_s += part.take_seconds();
    effort.photon_bytes = std::max(effort.photon_bytes, vertices.photon_bytes());

    trace_camera_walks(pass.stage, pixel_walks, films.sink, total);
    effort.camera_s += part.take_seconds();
    effort.camera_rays += part.take_rays();
    PassVertices::release(pass.stage);

    trace_meter_walks(pass.stage, films.meters, total);
    effort.meter_s += part.take_seconds();
    effort.meter_rays += part.take_rays();

    films.film.end_pass();
    films.meters.end_pass();
    effort.film_s += part.take_seconds();
}

}  // namespace dapple
