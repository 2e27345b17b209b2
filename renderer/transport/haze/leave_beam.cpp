#include "transport/haze/leave_beam.h"

namespace dapple {

bool leaves_beam(const Stage& stage, const LightWalkStart& start, const Walk& walk) {
    if (!stage.haze || stage.walks.beams.empty() || !walk.media.empty()) return false;
    const int leaving = stage.walks.beams[static_cast<size_t>(start.fixture)];
    return start.index < leaving && walk.history.began_smooth() && walk.edge <= stage.max_bounces;
}

void leave_beam(const Stage& stage,
                const LightWalkStart& start,
                const WalkRay& ray,
                BeamList& beams) {
    const auto fixture = static_cast<size_t>(start.fixture);
    const float per_leaving =
        stage.light_walks(fixture) / static_cast<float>(stage.walks.beams[fixture]);
    const CarriedLight& light = ray.before.light;
    const Spectrum& carried = ray.lands_whole ? light.undispersed : light.throughput;
    Beam beam;
    beam.origin = ray.before.ray.origin;
    beam.direction = ray.before.ray.direction;
    beam.length = ray.length;
    beam.flux = PackedSpectrum(carried * (start.lumens * per_leaving));
    beam.fixture = static_cast<int16_t>(start.fixture);
    beam.edge = static_cast<int16_t>(ray.before.edge);
    beams.push_back(beam);
}

}  // namespace dapple
