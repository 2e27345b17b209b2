// What the clocks of a render do not tell apart: splats, and the gathering of photons. One thread.
//
// Splats: the light walks of one pass, with all their splats and with none; they take the same
// ways, so that the difference is what splats take. To tell footprints from the film, the splats
// are put down and laid out again with nothing in between, which takes less, for the caches are
// warm; once more with no light groups to add to, which leaves the footprints; and once more as
// points. Gathering: the camera walks of the pass, with photons and with none, in the same way.
#pragma once

#include <optional>

#include "render/frame_pass.h"
#include "splat_log.h"

namespace dapple {

// Of one pass; seconds, or shares of its time.
struct PartTimes {
    double splats = 0;        // among light walks
    double splats_alone = 0;  // laid out again
    double footprints = 0;    // of splats_alone; the rest adds them to the film
    double points = 0;        // as splats_alone, if each were one pixel
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
    double camera_seconds(const PhotonMap* photons);

    FrameSetup frame_;
    FramePass pass_;
    FixtureGroups no_groups_;
    Film film_;
    MeterFilm meters_;
    FilmSink sink_;
    FilmSink footprints_sink_;
    SplatLog log_;
    std::optional<PhotonMap> photons_;
};

}  // namespace dapple
