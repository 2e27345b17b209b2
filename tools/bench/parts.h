// Times of two kinds of work that the clocks of a render do not separate: splats, and the gathering
// of photons. On one thread.
//
// Splats: the light walks of one pass are traced with their splats and again without. The paths are
// the same, so the difference is the time of the splats. To separate footprints from the film, the
// splats are recorded and added again alone, which takes less time because the caches are warm;
// then added with no light groups, which leaves the footprints; then added as points.
// Gathering: the camera walks of the pass are traced with photons and again without.
#pragma once

#include "render/pass_vertices.h"
#include "splat_log.h"

namespace dapple {

// Times of one pass: in seconds, or as shares of the pass's time.
struct PartTimes {
    double splats = 0;        // within the light walks
    double splats_alone = 0;  // added again alone
    double footprints = 0;    // part of splats_alone; the other part adds to the film
    double points = 0;        // added again alone, each splat to one pixel
    double gathering = 0;
};

class Parts {
  public:
    Parts(const Scene& scene, const World& world, const RenderOptions& options, uint32_t pass);

    uint64_t splats() const { return log_.met(); }
    PartTimes time();

  private:
    double walk_seconds(LightSink& sink) const;
    double splat_seconds(FilmSink& sink, const SplatRadii& radii) const;
    double camera_seconds(bool gathers);

    FrameSetup frame_;
    FramePass pass_;
    PassVertices vertices_;
    FixtureGroups no_groups_;
    Film film_;
    MeterFilm meters_;
    FilmSink sink_;
    FilmSink footprints_sink_;
    SplatLog log_;
};

}  // namespace dapple
